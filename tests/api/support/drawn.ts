/** A picture read back: what its words say, and which numbers its marks and lines stand at. */
import { SaxesParser } from 'saxes';

interface Node {
  name: string;
  attributes: Record<string, string>;
  text: string;
  children: Node[];
}

export interface DrawnPanel {
  label: string;
  legend: string[];
  /** Values of all marks, series by series, in order of time. */
  marks: number[];
  /** Values along each line, in the order in which they are drawn, with the dash of each. */
  lines: { dash: string; values: number[]; xs: number[] }[];
  limits: number[];
  words: string[];
}

export interface Drawn {
  title: string;
  desc: string;
  language: string;
  words: string[];
  names: Set<string>;
  panels: DrawnPanel[];
}

/** Reads a picture; throws where it is not well-formed XML. */
export function readDrawn(svg: string): Drawn {
  const root = treeOf(svg);
  const all = [root, ...descendants(root)];
  const words = all.filter(({ name }) => name === 'text').map(({ text }) => text);
  const panels = root.children.filter(({ name }) => name === 'g').map(panelOf);
  return { title: textOf(all, 'title'), desc: textOf(all, 'desc'), language: root.attributes['xml:lang'] ?? '', words, names: new Set(all.map(({ name }) => name)), panels };
}

function treeOf(svg: string): Node {
  const open: Node[] = [{ name: '', attributes: {}, text: '', children: [] }];
  const parser = new SaxesParser();
  parser.on('error', (error) => { throw error; });
  parser.on('opentag', ({ name, attributes }) => {
    const node: Node = { name, attributes: attributes as Record<string, string>, text: '', children: [] };
    open.at(-1)!.children.push(node);
    open.push(node);
  });
  parser.on('text', (text) => { open.at(-1)!.text += text; });
  parser.on('closetag', () => { open.pop(); });
  parser.write(svg).close();
  return open[0]!.children[0]!;
}

const descendants = (node: Node): Node[] => node.children.flatMap((child) => [child, ...descendants(child)]);
const textOf = (nodes: readonly Node[], name: string): string => nodes.find((node) => node.name === name)?.text ?? '';
const at = (node: Node, attribute: string): number => Number(node.attributes[attribute]);

/** A panel: its label, its legend, its axes; then bands, limits, series and the present moment. */
function panelOf({ children: [label, legend, axes, ...rest] }: Node): DrawnPanel {
  const ticks = descendants(axes!).filter(({ name, attributes }) => name === 'text' && attributes['text-anchor'] === 'end').map((tick) => ({ y: at(tick, 'y') - 4, value: Number(tick.text.replace('−', '-').replaceAll(',', '')) }));
  const [first, last] = [ticks[0]!, ticks.at(-1)!];
  const valueAt = (y: number): number => first.value + ((y - first.y) / (last.y - first.y)) * (last.value - first.value);
  const inner = rest.flatMap((node) => [node, ...descendants(node)]);
  const lines = inner.filter(({ name, attributes }) => name === 'path' && attributes['stroke-width'] === '2').map(({ attributes }) => {
    const points = [...attributes['d']!.matchAll(/(-?[\d.]+),(-?[\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));
    return { dash: attributes['stroke-dasharray'] ?? '', values: points.map(({ y }) => valueAt(y)), xs: points.map(({ x }) => x) };
  });
  return {
    label: label!.text, legend: descendants(legend!).filter(({ name }) => name === 'text').map(({ text }) => text), lines, marks: inner.flatMap(marksIn).map(valueAt),
    limits: rest.filter(({ name }) => name === 'line').map((line) => valueAt(at(line, 'y1'))), words: inner.filter(({ name }) => name === 'text').map(({ text }) => text),
  };
}

/** Heights of marks: dots and rings, squares, crosses. */
function marksIn(node: Node): number[] {
  if (node.name === 'circle') return [at(node, 'cy')];
  if (node.name === 'rect') return [at(node, 'y') + 2.2];
  const cross = node.name === 'path' && node.attributes['stroke-width'] === '2.2' ? /^M\S+ (-?[\d.]+)L/.exec(node.attributes['d'] ?? '') : null;
  return cross === null ? [] : [Number(cross[1]) + 5];
}
