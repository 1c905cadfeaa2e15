import { createHash } from 'node:crypto';
import { escapeHtml } from './escape.ts';
import { REPORT_STYLE } from './style.ts';

/** What a report's page says besides its sections. All texts are plain and get escaped. */
export interface Shell {
  version: string;
  title: string;
  /** The command that made it. */
  command: string;
  under: string;
  /** Anchor and words of each part. */
  parts: [string, string][];
  footer: string;
  /** Added to the look of all reports. */
  style?: string;
  script?: string;
}

/**
 * A report as one HTML file that needs nothing else: no network, no other file. Its content policy allows the
 * page's own style and its one script (by hash), and nothing more.
 * @param sections HTML
 */
export function reportPage(shell: Shell, sections: readonly string[]): string {
  const { script } = shell;
  const scripts =
    script === undefined
      ? ''
      : ` script-src 'sha256-${createHash('sha256').update(script).digest('base64')}';`;
  const policy = `default-src 'none'; style-src 'unsafe-inline';${scripts} base-uri 'none'; form-action 'none'`;
  const links = shell.parts.map(([id, words]) => `<a href="#${id}">${escapeHtml(words)}</a>`).join('\n');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="tautline ${escapeHtml(shell.version)}">
<title>${escapeHtml(shell.title)}</title>
<style>${REPORT_STYLE}${shell.style ?? ''}</style>
</head>
<body>
<div class="rule"></div>
<header>
<p class="over">tautline ${escapeHtml(shell.command)}</p>
<h1>${escapeHtml(shell.title)}</h1>
<p class="under">${escapeHtml(shell.under)}</p>
<nav aria-label="Parts of this report">${links}</nav>
</header>
<main>
${sections.join('\n')}
</main>
<footer>${escapeHtml(shell.footer)}</footer>${script === undefined ? '' : `\n<script>${script}</script>`}
</body>
</html>
`;
}
