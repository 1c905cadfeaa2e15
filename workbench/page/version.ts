/** Version of the program that serves the page. */
export const VERSION: string =
  document.querySelector<HTMLMetaElement>('meta[name="generator"]')?.content.replace(/^tautline /, '') ?? '';
