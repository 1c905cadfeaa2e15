import { createMemoryLink, type Plug } from '../../../workbench/serial/memory-link.ts';
import { linkSuite } from './link-suite.ts';

linkSuite('memory', async () => {
  let plug: Plug | undefined;
  const link = createMemoryLink('MEM', (given) => {
    plug = given;
    return { receive: (bytes) => given.send(bytes) };
  });
  return { link, pull: () => plug?.pull(), async tidy() {} };
});
