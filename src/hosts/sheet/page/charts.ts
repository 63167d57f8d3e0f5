import type { ChartOfSheet } from '../../../workbook/extras.ts';
import { drawFigure, type Figure } from '../chart/draw.ts';
import { rangeCells } from '../range.ts';
import type { Grid } from './grid.ts';

/** Calculations and selections come in bursts: the panel is drawn once after each. */
const GATHER_MS = 60;
/** Heights, px: what the bars around the grid and the open panel take; what rows that scroll need at the least, some eight of them. */
const AROUND = 420;
const LEAST_SCROLLED = 160;

/**
 * A panel under the grid with the charts of the sheet in view, drawn from what its cells show now. The grid itself draws
 * none; the file keeps them as they are.
 */
export function showCharts(grid: Grid, panel: HTMLElement): void {
  const details = document.createElement('details');
  const summary = document.createElement('summary');
  const strip = document.createElement('div');
  strip.className = 'nw-strip';
  strip.tabIndex = 0;
  strip.setAttribute('role', 'group');
  strip.setAttribute('aria-label', 'Charts of this sheet');
  details.append(summary, strip);
  panel.append(details);
  /** Until somebody opens or closes the panel, it is open where that leaves room for the rows that scroll. */
  let chosen = false;
  summary.addEventListener('click', () => {
    chosen = true;
  });
  let timer: ReturnType<typeof setTimeout> | undefined;

  function draw(): void {
    timer = undefined;
    const sheetId = grid.api.getActiveWorkbook()?.getActiveSheet().getSheetId();
    const charts = sheetId === undefined ? [] : (grid.extras.get(sheetId)?.charts ?? []);
    panel.hidden = charts.length === 0;
    summary.textContent = `Charts of this sheet (${charts.length})`;
    if (!chosen) details.open = hasRoom(grid);
    if (details.open) strip.replaceChildren(...charts.map((chart) => drawFigure(figureOf(grid, chart))));
  }
  const later = () => {
    if (timer === undefined) timer = setTimeout(draw, GATHER_MS);
  };
  details.addEventListener('toggle', later);
  grid.messages.onChange(later);
  for (const event of [grid.api.Event.ActiveSheetChanged, grid.api.Event.SheetValueChanged])
    grid.api.addEvent(event, later);
  later();
}

/** Whether the open panel leaves the rows under the frozen ones of the sheet in view enough height. */
function hasRoom(grid: Grid): boolean {
  if (!matchMedia('(min-width: 48rem) and (min-height: 40rem)').matches) return false;
  const sheet = grid.api.getActiveWorkbook()?.getActiveSheet();
  let frozen = 0;
  for (let row = 0; row < (sheet?.getFreeze().ySplit ?? 0); row++) frozen += sheet?.getRowHeight(row) ?? 0;
  return innerHeight - AROUND - frozen >= LEAST_SCROLLED;
}

function figureOf(grid: Grid, chart: ChartOfSheet): Figure {
  const [first] = chart.series;
  const labels = listed(grid, first?.categories).map((value) => (value === null ? '' : String(value)));
  const lines = chart.series.map((line) => ({
    name: line.name,
    values: listed(grid, line.values).map(numeric),
    xs: listed(grid, line.categories).map(numeric),
    points: line.points,
    unseen: line.unseen,
  }));
  // A chart's ranges have room for longer tables: what is blank at their end is no bar.
  const filled = lines.flatMap(({ values }) => values.flatMap((value, row) => (value === null ? [] : [row + 1])));
  const used = Math.max(0, ...filled);
  return {
    ...chart,
    labels: labels.slice(0, used),
    series: lines.map((line) => ({ ...line, values: line.values.slice(0, used), xs: line.xs.slice(0, used) })),
    xTitle: chart.x.title,
    yTitle: chart.y.title,
    xLog: chart.x.log,
    yLog: chart.y.log,
  };
}

const numeric = (value: unknown): number | null => (typeof value === 'number' ? value : null);

function listed(grid: Grid, range: string | undefined): readonly unknown[] {
  return range === undefined ? [] : rangeCells(grid, range).flat();
}
