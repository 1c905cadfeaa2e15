import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { PageConfig } from '../page/config.ts';
import { PAGE_STYLE } from '../page/page-style.ts';
import { escapeHtml } from '../report/escape.ts';
import type { PageFile } from './workbench-server.ts';

const TYPES: Record<string, string> = { js: 'text/javascript', css: 'text/css' };

/**
 * Everything that the page's server gives out, by path. Only these: no path of a request ever reaches the disk.
 * @param recording reads the recording to replay, if there is one
 */
export function pageFiles(config: PageConfig, recording?: () => Buffer): Map<string, PageFile> {
  const folder = new URL(import.meta.url.endsWith('.ts') ? '../../dist/page/' : './page/', import.meta.url);
  const files = new Map<string, PageFile>();
  for (const name of readdirSync(folder)) {
    const type = TYPES[name.split('.').at(-1) ?? ''];
    if (type === undefined) continue;
    const content = readFileSync(fileURLToPath(new URL(name, folder)));
    files.set(`/${name}`, { type: `${type}; charset=utf-8`, content, isPrivate: false });
  }
  files.set('/page.css', { type: 'text/css; charset=utf-8', content: PAGE_STYLE, isPrivate: false });
  files.set('/', { type: 'text/html; charset=utf-8', content: indexHtml(config.version), isPrivate: true });
  files.set('/config', {
    type: 'application/json; charset=utf-8',
    content: JSON.stringify(config),
    isPrivate: true,
  });
  if (recording)
    files.set('/recording', { type: 'text/csv; charset=utf-8', content: recording, isPrivate: true });
  return files;
}

function indexHtml(version: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="tautline ${escapeHtml(version)}">
<title>Tautline workbench</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/chart.css">
<link rel="stylesheet" href="/page.css">
</head>
<body>
<div class="rule"></div>
<div id="app"><main><p>Starting …</p></main></div>
<script type="module" src="/app.js"></script>
</body>
</html>
`;
}
