/** Elements of SVG 1.1 (W3C) as text. Every word and number goes through here, so that no text can end a tag. */

export type Attributes = Readonly<Record<string, string | number>>;

/** Control characters that XML 1.0 (W3C, section 2.2) forbids even when escaped, and halves of surrogate pairs. */
// eslint-disable-next-line no-control-regex
const FORBIDDEN = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

const ENTITIES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** Text that stands as itself in XML. What XML cannot hold is shown as the replacement character. */
export function escaped(text: string): string {
  return text.replaceAll(FORBIDDEN, '\uFFFD').replaceAll(/[&<>"']/g, (sign) => ENTITIES[sign]!);
}

/** An element; children are markup already. */
export function element(name: string, attributes: Attributes, ...children: string[]): string {
  const written = Object.entries(attributes).map(([key, value]) => ` ${key}="${typeof value === 'number' ? rounded(value) : escaped(value)}"`).join('');
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join('')}</${name}>`;
}

/** A line of text at a point. */
export function words(text: string, attributes: Attributes): string {
  return element('text', attributes, escaped(text));
}

/** Tenths of a pixel are finer than any screen here, and keep the file small and equal on every machine. */
export function rounded(value: number): string {
  return String(Math.round(value * 10) / 10 + 0);
}
