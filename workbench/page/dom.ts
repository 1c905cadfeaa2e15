type Child = Node | string | undefined | false;

/** An element with attributes, listeners (`onclick`) and children. Strings become text, never markup. */
export function h<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Record<string, string | number | boolean | ((event: Event) => void) | undefined> = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    if (typeof value === 'function') made.addEventListener(key.slice(2), value);
    else made.setAttribute(key, value === true ? '' : String(value));
  }
  fill(made, ...children);
  return made;
}

/** Puts children in place of those that are there. */
export function fill(parent: Element, ...children: Child[]): void {
  parent.replaceChildren(...children.filter((child): child is Node | string => Boolean(child)));
}

/** Sets a text only if it changed, so that nothing is laid out anew for nothing. */
export function setText(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}

/** A section of HTML that our own report writer made: it escapes all that comes from elsewhere. */
export function fromReport(html: string): DocumentFragment {
  const template = document.createElement('template');
  template.innerHTML = html;
  return template.content;
}
