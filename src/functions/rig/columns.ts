import type { SpillColumn } from '../../tables/spill.ts';

/** Columns that several tables of rigs and evacuations share. */
export const timeColumn = (name: string): SpillColumn => ({ name, quantity: 'time', metricUnit: 'min' });
export const pressureColumn = (name: string): SpillColumn => ({
  name,
  quantity: 'pressure',
  metricUnit: 'Pa',
  inchUnit: 'micron',
});
export const speedColumn = (name: string): SpillColumn => ({
  name,
  quantity: 'volume flow',
  metricUnit: 'L/s',
  inchUnit: 'cfm',
});
export const volumeColumn = (name: string): SpillColumn => ({
  name,
  quantity: 'volume',
  metricUnit: 'L',
  inchUnit: 'ft3',
});
export const velocityColumn = (name: string): SpillColumn => ({
  name,
  quantity: 'velocity',
  metricUnit: 'm/s',
  inchUnit: 'ft/s',
});
export const shareColumn = (name: string): SpillColumn => ({ name, quantity: 'fraction', metricUnit: '%' });
export const textColumn = (name: string): SpillColumn => ({ name });
