import type { ModelChart, ModelSheet } from '../../workbook/model.ts';
import { splitAddress } from './addresses.ts';

/**
 * Draws the sheet's charts. The API has no place for a chart's alternative text; the title, which names the chart as well,
 * says what it shows.
 */
export function addCharts(context: Excel.RequestContext, target: Excel.Worksheet, sheet: ModelSheet): void {
  for (const chart of sheet.charts ?? []) addChart(context, target, chart);
}

function addChart(context: Excel.RequestContext, target: Excel.Worksheet, model: ModelChart): void {
  const [first, ...more] = model.series;
  if (first === undefined) return;
  const range = (address: string): Excel.Range => {
    const { sheet, cells } = splitAddress(address);
    return (sheet === '' ? target : context.workbook.worksheets.getItem(sheet)).getRange(cells);
  };
  const chart = target.charts.add(typeOf(model), range(first.values), Excel.ChartSeriesBy.columns);
  chart.name = model.title;
  chart.title.text = model.title;
  chart.setPosition(model.from, model.to);
  const lines = [chart.series.getItemAt(0), ...more.map((series) => chart.series.add(series.name))];
  lines.forEach((line, index) => {
    const series = model.series[index] ?? first;
    line.name = series.name;
    line.setValues(range(series.values));
    line.setXAxisValues(range(series.categories ?? model.categories));
    if (model.kind === 'scatter' && series.points === true) line.chartType = Excel.ChartType.xyscatter;
    if (series.unseen === true) line.format.fill.clear();
    if (model.stacked === true) line.gapWidth = STACKED_GAP;
  });
  const { categoryAxis, valueAxis } = chart.axes;
  if (model.xTitle !== undefined) categoryAxis.title.text = model.xTitle;
  if (model.yTitle !== undefined) valueAxis.title.text = model.yTitle;
  if (model.xLog === true) categoryAxis.scaleType = Excel.ChartAxisScaleType.logarithmic;
  if (model.yLog === true) valueAxis.scaleType = Excel.ChartAxisScaleType.logarithmic;
  if (model.yStep !== undefined) valueAxis.majorUnit = model.yStep;
  // Lying bars stand in the order of the table, the first on top.
  if (model.kind === 'bar') categoryAxis.reversePlotOrder = true;
  const drawn = model.series.filter(({ unseen }) => unseen !== true).length;
  chart.legend.visible = drawn > 1;
}

/** Percent of a bar's width between one bar and the next, where a bar stands for several series. */
const STACKED_GAP = 40;

function typeOf({ kind, stacked }: ModelChart): Excel.ChartType {
  if (kind === 'bar') return stacked === true ? Excel.ChartType.barStacked : Excel.ChartType.barClustered;
  if (kind === 'column') return stacked === true ? Excel.ChartType.columnStacked : Excel.ChartType.columnClustered;
  return kind === 'line' ? Excel.ChartType.line : Excel.ChartType.xyscatterLinesNoMarkers;
}
