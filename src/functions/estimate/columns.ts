import type { SpillColumn } from '../../tables/spill.ts';

export const hoursColumn = (name: string): SpillColumn => ({ name, quantity: 'time', metricUnit: 'h' });

/** s, so that a column of hours can be filled from minutes and hours */
export const SECONDS_PER_MINUTE = 60;
export const SECONDS_PER_HOUR = 3600;
