/** Clock times of cells, in minutes from midnight. */

const HOUR = 60;
const DAY = 24 * HOUR;

const TIME = /^(\d{1,2})(?:[:.h](\d{2})(?::(\d{2}))?)?\s*(am|pm)?$/iu;
const NUMBER = /^\d*[.,]?\d+$/u;

/**
 * Minutes from midnight: "08:00", "8:30", "4:30 pm"; a number below 1 is a spreadsheet's time of day, from 1 on hours (8, 16.5, 24).
 * Undefined for anything else.
 */
export function readClock(cell: string): number | undefined {
  const text = cell.trim();
  const plain = NUMBER.test(text) ? Number(text.replace(',', '.')) : undefined;
  if (plain !== undefined) {
    const minutes = plain < 1 ? plain * DAY : plain * HOUR;
    return minutes <= DAY ? tidy(minutes) : undefined;
  }
  const [, hours, minutes = '0', seconds = '0', half] = TIME.exec(text) ?? [];
  if (hours === undefined || Number(minutes) >= HOUR || Number(seconds) >= HOUR) return undefined;
  const twelve = half === undefined ? undefined : half.toLowerCase();
  const hour = Number(hours);
  if (twelve !== undefined && (hour < 1 || hour > 12)) return undefined;
  const ofDay = twelve === undefined ? hour : (hour % 12) + (twelve === 'pm' ? 12 : 0);
  const sum = ofDay * HOUR + Number(minutes) + Number(seconds) / HOUR;
  return sum <= DAY ? sum : undefined;
}

/** Less the noise of a time of day that a spreadsheet keeps as a fraction. */
function tidy(minutes: number): number {
  const whole = Math.round(minutes * HOUR) / HOUR;
  return Math.abs(whole - minutes) < 1e-6 ? whole : minutes;
}

/** A moment as "08:05"; minutes from midnight of some day, rounded to the whole minute. */
export function clockText(minutes: number): string {
  const rounded = Math.round(minutes);
  const ofDay = rounded - DAY * Math.floor(rounded / DAY);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(ofDay / HOUR))}:${two(ofDay % HOUR)}`;
}

/** Days count from 1, the day of minute 0. */
export function dayOf(minutes: number): number {
  return Math.floor(Math.round(minutes) / DAY) + 1;
}
