import type { ReportUnits } from '../../tables/spill.ts';
import type { DrawnPart } from './drawn-rig.ts';

const INCH = 0.0254;
const FOOT = 0.3048;
/** m; shorter lengths read better in mm */
const SHORT = 0.1;

const rounded = (value: number): string => String(Number(value.toPrecision(3)));

/** 4.8 mm or 0.189 in; with ≈ where the bore is worked out from a flow coefficient. */
export function boreText({ bore, equivalent, count }: DrawnPart, units: ReportUnits): string {
  const size = units === 'inch' ? `${rounded(bore / INCH)} in` : `${rounded(bore * 1000)} mm`;
  return `${count > 1 ? `${count} × ` : ''}${equivalent ? '≈ ' : ''}${size}`;
}

/** 1.52 m or 5 ft; short ones in mm or inches. An opening has none. */
export function lengthText({ length }: DrawnPart, units: ReportUnits): string {
  if (length === undefined) return '';
  if (units === 'inch') return length < FOOT ? `${rounded(length / INCH)} in` : `${rounded(length / FOOT)} ft`;
  return length < SHORT ? `${rounded(length * 1000)} mm` : `${rounded(length)} m`;
}

export function shareText(share: number): string {
  return `${(share * 100).toFixed(1)} %`;
}
