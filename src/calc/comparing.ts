/** Which cells a comparison tells of: all; those that match, for a look-up; or those and text that reads as a number. */
export type Answering = 'all' | 'matches' | 'numerals';

/** For whom the engine compares at the moment. */
export const comparisons: { as: Answering } = { as: 'all' };
