import type { ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed } from '../layout.ts';
import { type TemplateRig, templateRigs } from '../rigs.ts';
import { columnIndex, spilledColumn, widthOf } from '../spilled.ts';

const PROFILE = 'RIG.PROFILE';
const CURVE = 'EVAC.CURVE';
const PROFILE_ROW = 10;
const MOST_PARTS = 24;
/** parts that the chart draws, the pump not among them: it has no share of the loss */
const SHOWN = 12;
/** The pull-down stands right of the charts, since the parts of a rig may be any number. */
const CURVE_ROW = PROFILE_ROW;
const POINTS = 25;
const CHART_COLUMNS = 10;
const CHART_ROWS = 17;

const nulls = (rows: number, columns: number): null[][] =>
  Array.from({ length: rows }, () => Array.from({ length: columns }, () => null));

/** One rig looked into: what each part costs, and how the pull-down goes. */
export function oneRigSheet(
  chosen: TemplateRig | undefined = templateRigs[0],
  conditions: string | null = 'Conditions',
  volume = 10,
): ModelSheet {
  const last = conditions === null ? '' : `,${conditions}`;
  const profile = widthOf(PROFILE);
  const curve = widthOf(CURVE);
  const share = spilledColumn(PROFILE, 'Share of loss');
  const parts = chosen?.parts.length ?? 1;
  const [firstPart, lastPart] = [PROFILE_ROW + 2, PROFILE_ROW + 1 + SHOWN];
  const [firstPoint, lastPoint] = [CURVE_ROW + 1, CURVE_ROW + POINTS];
  const chartsAt = profile + 1;
  const chartsEnd = chartsAt + CHART_COLUMNS - 1;
  const curveAt = chartsEnd + 2;
  const curveFrom = letter(curveAt);
  const points = (name: string): string => {
    const at = letter(curveAt + columnIndex(CURVE, name));
    return `'One rig'!$${at}$${firstPoint}:$${at}$${lastPoint}`;
  };
  return {
    name: 'One rig',
    widths: [
      51,
      32,
      14,
      14,
      14,
      18,
      16,
      16,
      18,
      3,
      ...Array.from({ length: CHART_COLUMNS }, () => 9),
      3,
      14,
      22,
      22,
      22,
    ],
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'One rig: which part costs the most', look: 'title' },
      A2: { value: 'Pick a rig, a pressure and a volume; tables and charts follow.', look: 'note', wrap: false },
      A4: { value: 'Rig', look: 'label' },
      B4: { value: chosen?.name ?? '', look: 'input' },
      A5: { value: 'Pressure at the system', look: 'label' },
      B5: { value: '500 micron', look: 'input' },
      A6: { value: 'Inside volume of the system (L)', look: 'label' },
      B6: { value: volume, look: 'input', format: '0.0' },
      A7: { value: 'True micron while a pump gauge reads B5', look: 'label' },
      B7: {
        formula: `=NARROWS.CONVERT(NARROWS.RIG.GAUGE(Parts,B4,B5${last}),"Pa","micron")`,
        look: 'figure',
        format: '#,##0',
      },
      [`A${PROFILE_ROW - 1}`]: { value: 'Part by part, from the pump to the system', look: 'heading' },
      [`A${PROFILE_ROW}`]: {
        formula: `=NARROWS.RIG.PROFILE(Parts,B4,B5${last})`,
        spills: `A${PROFILE_ROW}:${letter(profile - 1)}${PROFILE_ROW + parts}`,
        look: 'header',
      },
      [`${curveFrom}${CURVE_ROW - 1}`]: { value: 'The pull-down to the target of the conditions', look: 'heading' },
      [`${curveFrom}${CURVE_ROW}`]: {
        formula: `=NARROWS.EVAC.CURVE(B6,Parts,B4,${POINTS}${last})`,
        spills: `${curveFrom}${CURVE_ROW}:${letter(curveAt + curve - 1)}${CURVE_ROW + POINTS}`,
        look: 'header',
      },
    },
    blocks: [
      { at: `B${PROFILE_ROW}`, rows: nulls(1, profile - 1), look: 'header' },
      { at: `A${PROFILE_ROW + 1}`, rows: nulls(MOST_PARTS, profile), look: 'formula', format: '#,##0.000' },
      { at: `${letter(curveAt + 1)}${CURVE_ROW}`, rows: nulls(1, curve - 1), look: 'header' },
      { at: `${curveFrom}${CURVE_ROW + 1}`, rows: nulls(POINTS, curve), look: 'formula', format: '#,##0.00' },
    ],
    validations: [{ range: 'B4', list: '=RigNames', title: 'Rig', message: 'Pick a rig of the Parts sheet.' }],
    numberRules: [{ range: 'B6', least: 0, title: 'Volume', message: 'Litres, above 0.' }],
    charts: [
      {
        kind: 'bar',
        title: `Share of the loss, part by part (first ${SHOWN} parts)`,
        from: `${letter(chartsAt)}${PROFILE_ROW}`,
        to: `${letter(chartsEnd)}${PROFILE_ROW + CHART_ROWS}`,
        categories: `'One rig'!$A$${firstPart}:$A$${lastPart}`,
        series: [{ name: 'Share of loss (%)', values: `'One rig'!$${share}$${firstPart}:$${share}$${lastPart}` }],
        yTitle: '%',
        altText: 'Bars of the share that each part of the chosen rig has in the loss of pressure.',
      },
      {
        kind: 'scatter',
        title: 'Pull-down',
        from: `${letter(chartsAt)}${PROFILE_ROW + CHART_ROWS + 1}`,
        to: `${letter(chartsEnd)}${PROFILE_ROW + 2 * CHART_ROWS + 3}`,
        categories: points('Time'),
        series: [
          { name: 'at the system', values: points('System pressure') },
          { name: 'at the pump', values: points('Pump pressure') },
        ],
        xTitle: 'min',
        yTitle: 'pressure (log scale)',
        yLog: true,
        altText: 'Pressure at the system and at the pump against minutes; the gap is what a gauge at the pump hides.',
      },
    ],
    print: printed({
      headerRow: PROFILE_ROW,
      area: `A:${letter(curveAt + curve - 1)}`,
      columnsBefore: [letter(chartsAt)],
    }),
  };
}
