import { linearScale, logScale, type Scale, tickText } from './scale.ts';

/** A chart with its values: what is drawn, told apart from where it comes from. */
export interface Figure {
  readonly kind: 'bar' | 'column' | 'line' | 'scatter';
  readonly title: string;
  readonly altText: string;
  readonly labels: readonly string[];
  readonly series: readonly FigureSeries[];
  /** bars of one label begin where the one before ends */
  readonly stacked: boolean;
  readonly xTitle: string;
  readonly yTitle: string;
  readonly xLog: boolean;
  readonly yLog: boolean;
}

export interface FigureSeries {
  readonly name: string;
  /** null leaves a gap */
  readonly values: readonly (number | null)[];
  /** x of each value, scatter only */
  readonly xs: readonly (number | null)[];
  readonly points: boolean;
  /** takes its room in a stack and is not drawn */
  readonly unseen: boolean;
}

const NAMESPACE = 'http://www.w3.org/2000/svg';
const WIDTH = 440;
const HEIGHT = 250;
const TITLE_HEIGHT = 26;
const TITLE_LINE = 15;
/** Characters of a title that fit on a line. */
const TITLE_CHARACTERS = 62;
const LEGEND_HEIGHT = 20;
const FOOT = 38;
const BAR_ROW = 13;
const BAR_GROUP_GAP = 7;
const LABEL_CHARACTERS = 24;
const CHARACTER = 6.1;
/** Series differ by more than colour: by dashes, and by the fill of their bars. */
const DASHES = ['', '7 4', '2 3', '9 3 2 3'];

/** In place of axes without anything between them. */
const NOTHING = 'Nothing to draw yet: its cells hold no figures.';

type Attributes = Record<string, string | number>;

function add(parent: Element, name: string, attributes: Attributes, text?: string): SVGElement {
  const element = document.createElementNS(NAMESPACE, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  if (text !== undefined) element.textContent = text;
  parent.append(element);
  return element;
}

/** Draws a figure as a picture that scales, prints and is read out. */
export function drawFigure(figure: Figure): SVGSVGElement {
  const svg = document.createElementNS(NAMESPACE, 'svg');
  const lying = figure.kind === 'bar';
  const group = (figure.stacked ? 1 : figure.series.length) * BAR_ROW + BAR_GROUP_GAP;
  const legend = figure.series.filter(({ unseen }) => !unseen).length > 1 ? LEGEND_HEIGHT : 0;
  const title = linesOf(figure.title);
  const titleHeight = TITLE_HEIGHT + (title.length - 1) * TITLE_LINE;
  const head = titleHeight + legend;
  const isBare = numbers(figure).length === 0;
  const drawn = lying ? head + figure.labels.length * group + FOOT : HEIGHT + titleHeight - TITLE_HEIGHT;
  const height = isBare ? titleHeight + FOOT : drawn;
  svg.setAttribute('viewBox', `0 0 ${WIDTH} ${height}`);
  svg.setAttribute('class', 'nw-figure');
  svg.setAttribute('role', 'img');
  svg.setAttribute(
    'aria-label',
    [figure.title, figure.altText, isBare ? NOTHING : ''].filter((text) => text !== '').join('. '),
  );
  title.forEach((line, index) => {
    add(svg, 'text', { x: 8, y: 17 + index * TITLE_LINE, class: 'nw-figure-title' }, line);
  });
  if (isBare) {
    add(svg, 'text', { x: 8, y: titleHeight + 14 }, NOTHING);
    return svg;
  }
  if (legend > 0) drawLegend(svg, figure, titleHeight + 6);
  if (lying) drawBars(svg, figure, head, height - FOOT, group);
  else drawUpright(svg, figure, head, height - FOOT);
  return svg;
}

/** A title in lines that fit, broken between words. */
function linesOf(title: string): string[] {
  const lines = [''];
  for (const word of title.split(' ')) {
    const last = lines.at(-1) ?? '';
    if (last !== '' && last.length + 1 + word.length > TITLE_CHARACTERS) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines;
}

function drawLegend(svg: SVGSVGElement, figure: Figure, y: number): void {
  let x = 10;
  figure.series.forEach(({ name, points, unseen }, index) => {
    if (unseen) return;
    if (figure.kind === 'bar' || figure.kind === 'column')
      add(svg, 'rect', { x, y: y - 5, width: 18, height: 9, class: `nw-bar-${index % DASHES.length}` });
    else if (points) add(svg, 'circle', { cx: x + 9, cy: y, r: 3, class: `nw-dot-${index % DASHES.length}` });
    else add(svg, 'path', { d: `M${x} ${y}h18`, ...lineLook(index) });
    add(svg, 'text', { x: x + 23, y: y + 4 }, name);
    x += 34 + name.length * CHARACTER;
  });
}

const lineLook = (index: number): Attributes => ({
  class: `nw-line-${index % DASHES.length}`,
  'stroke-dasharray': DASHES[index % DASHES.length] ?? '',
});

const numbers = (figure: Figure): number[] =>
  figure.series.flatMap(({ values }, index) =>
    values.flatMap((value, row) => (value === null ? [] : [value + before(figure, index, row)])),
  );

/** Where a bar of a stack begins: the sum of those before it; 0 outside a stack. */
function before({ series, stacked }: Figure, index: number, row: number): number {
  return stacked ? series.slice(0, index).reduce((sum, { values }) => sum + (values[row] ?? 0), 0) : 0;
}

const shortened = (text: string): string =>
  text.length > LABEL_CHARACTERS ? `${text.slice(0, LABEL_CHARACTERS - 1)}…` : text;

function drawBars(svg: SVGSVGElement, figure: Figure, top: number, bottom: number, group: number): void {
  const labels = figure.labels.map(shortened);
  const left = 14 + Math.max(2, ...labels.map((label) => label.length)) * CHARACTER;
  const right = WIDTH - 44;
  const scale = figure.yLog ? logScale(numbers(figure)) : linearScale(numbers(figure), true);
  const x = (value: number) => left + scale.at(value) * (right - left);
  for (const tick of scale.ticks) {
    add(svg, 'path', { d: `M${x(tick)} ${top}V${bottom}`, class: 'nw-rule' });
    add(svg, 'text', { x: x(tick), y: bottom + 14, 'text-anchor': 'middle' }, tickText(tick));
  }
  add(svg, 'text', { x: right, y: bottom + 30, 'text-anchor': 'end' }, figure.yTitle);
  const base = figure.yLog ? left : x(0);
  labels.forEach((label, row) => {
    const y = top + row * group + BAR_GROUP_GAP / 2;
    const middle = y + ((figure.stacked ? 1 : figure.series.length) * BAR_ROW) / 2 + 4;
    add(svg, 'text', { x: left - 6, y: middle, 'text-anchor': 'end' }, label);
    figure.series.forEach(({ values, unseen }, index) => {
      const value = values[row];
      if (value === null || value === undefined || unseen) return;
      const start = figure.stacked && !figure.yLog ? x(before(figure, index, row)) : base;
      const end = x(value + before(figure, index, row));
      const [from, to] = end < start ? [end, start] : [start, end];
      const look = `nw-bar-${index % DASHES.length}`;
      const barY = y + (figure.stacked ? 0 : index * BAR_ROW);
      add(svg, 'rect', { x: from, y: barY, width: Math.max(1, to - from), height: BAR_ROW - 2, class: look });
      const last = !figure.stacked || index === figure.series.length - 1;
      if (last) add(svg, 'text', { x: to + 4, y: barY + BAR_ROW - 3, class: 'nw-figure-value' }, valueText(value));
    });
  });
}

const valueText = (value: number): string => tickText(Number(value.toPrecision(3)));

function drawUpright(svg: SVGSVGElement, figure: Figure, top: number, bottom: number): void {
  const left = 72;
  const right = WIDTH - 16;
  const scatter = figure.kind === 'scatter';
  const columns = figure.kind === 'column';
  const yScale = figure.yLog ? logScale(numbers(figure)) : linearScale(numbers(figure), columns);
  const y = (value: number) => bottom - yScale.at(value) * (bottom - top);
  for (const tick of yScale.ticks) {
    add(svg, 'path', { d: `M${left} ${y(tick)}H${right}`, class: 'nw-rule' });
    add(svg, 'text', { x: left - 6, y: y(tick) + 4, 'text-anchor': 'end' }, tickText(tick));
  }
  const middle = (top + bottom) / 2;
  const turned = `rotate(-90 13 ${middle})`;
  add(svg, 'text', { x: 13, y: middle, 'text-anchor': 'middle', transform: turned }, figure.yTitle);
  add(svg, 'text', { x: right, y: bottom + 32, 'text-anchor': 'end' }, figure.xTitle);
  const count = Math.max(1, figure.labels.length);
  const slot = (right - left) / count;
  if (scatter) {
    const xs = figure.series.flatMap((series) => series.xs.filter((value): value is number => value !== null));
    const xScale = figure.xLog ? logScale(xs) : linearScale(xs);
    const x = (value: number) => left + xScale.at(value) * (right - left);
    for (const tick of xScale.ticks)
      add(svg, 'text', { x: x(tick), y: bottom + 15, 'text-anchor': 'middle' }, tickText(tick));
    figure.series.forEach((series, index) => {
      drawLine(svg, series, index, (row) => (series.xs[row] == null ? undefined : x(series.xs[row] as number)), y);
    });
    return;
  }
  const every = Math.ceil((count * 40) / (right - left));
  figure.labels.forEach((label, row) => {
    if (row % every !== 0) return;
    const at = left + (row + 0.5) * slot;
    add(svg, 'text', { x: at, y: bottom + 15, 'text-anchor': 'middle' }, label.slice(0, 10));
  });
  const width = (slot * 0.8) / Math.max(1, figure.series.length);
  figure.series.forEach((series, index) => {
    if (!columns) {
      drawLine(svg, series, index, (row) => left + (row + 0.5) * slot, y);
      return;
    }
    series.values.forEach((value, row) => {
      if (value === null) return;
      const x = left + row * slot + slot * 0.1 + index * width;
      const [from, to] = [y(value), figure.yLog ? bottom : y(0)];
      const look = `nw-bar-${index % DASHES.length}`;
      add(svg, 'rect', { x, y: Math.min(from, to), width, height: Math.abs(to - from), class: look });
    });
  });
}

function drawLine(
  svg: SVGSVGElement,
  { values, points }: FigureSeries,
  index: number,
  x: (row: number) => number | undefined,
  y: Scale['at'],
): void {
  let path = '';
  let pen = 'M';
  values.forEach((value, row) => {
    const across = x(row);
    if (value === null || across === undefined) {
      pen = 'M';
      return;
    }
    if (points) add(svg, 'circle', { cx: across, cy: y(value), r: 2.5, class: `nw-dot-${index % DASHES.length}` });
    else path += `${pen}${across.toFixed(1)} ${y(value).toFixed(1)}`;
    pen = 'L';
  });
  if (path !== '') add(svg, 'path', { d: path, ...lineLook(index) });
}
