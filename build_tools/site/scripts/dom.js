// Elements made from data: text always enters as text, never as markup.

/** A new element; `properties` are its DOM properties, `children` elements and plain text. */
export function make(name, properties = {}, ...children) {
  const element = Object.assign(document.createElement(name), properties);
  element.append(...children);
  return element;
}

/** The element with a `data-part` of this name. */
export const part = (name, within = document) => within.querySelector(`[data-part="${name}"]`);
