import { describe, expect, it } from 'vitest';
import type { HoldVerdict } from '../../../src/engine/hold/read.ts';
import { advice, sureness } from '../../../src/functions/hold/advice.ts';

/** Pa in a micron of mercury at 0 °C: 13595.1 kg/m3 × 9.80665 m/s2 × 1e-6 m. */
const MICRON = 13595.1 * 9.80665e-6;

const plain: HoldVerdict = {
  cause: 'tight',
  doubt: undefined,
  leaning: 'tight',
  probability: 0.97,
  weights: [['tight', 0.97]],
  rise: 1e-5,
  rate: 1e-7,
  level: undefined,
  constant: undefined,
  span: 1800,
  resolution: MICRON,
  last: 300 * MICRON,
  badTime: undefined,
  moreTime: undefined,
};
const words = (some: Partial<HoldVerdict>): string => advice({ ...plain, ...some });
const doubtful = (some: Partial<HoldVerdict>): string => words({ cause: undefined, ...some });

describe('how sure a verdict is, in words', () => {
  it.each([
    [0.99, 'sure'],
    [0.9899, 'fairly sure'],
    [1, 'sure'],
    [0.95, 'fairly sure'],
  ])('of %d is %s', (probability, said) => {
    expect(sureness({ ...plain, probability })).toBe(said);
    expect(sureness({ ...plain, probability, cause: undefined })).toBe('not sure');
  });
});

describe('what to do about a system that is tight', () => {
  it('names the most that the readings can hide, a minute', () => {
    // 2 Pa/s is 120 Pa a minute
    expect(words({ rise: 2 })).toMatch(/^No rise beyond 120 Pa \(900 micron\) a minute\. /);
  });

  // 500 and 1000 micron: common practice, no source
  it.each([
    [499, /Within the 500 micron that practice asks for; the limit of the maker goes first\.$/],
    [
      501,
      /It stands at 66\.8 Pa \(501 micron\), above the 500 micron that practice asks for: pull deeper before charging/,
    ],
    [999, /, above the 500 micron that practice/],
    [1001, /It stands at 133 Pa \(1000 micron\), well above the 500 to 1000 micron that practice/],
  ])('tells what practice asks for where it stands at %d micron', (reading, said) => {
    expect(words({ last: reading * MICRON })).toMatch(said);
  });

  it('names a reading that was left out, by its minute', () => {
    expect(words({ badTime: 540 })).toMatch(/ The reading at 9 min was left out as a bad one\.$/);
    expect(words({})).not.toContain('left out');
  });
});

describe('what to do about a rise', () => {
  it('that goes straight on: find the leak; a small one is called so, and slow moisture looks the same', () => {
    // 100 micron an hour: common practice, no source
    const limit = (100 * MICRON) / 3600;
    const large = words({ cause: 'leak', rise: 1.001 * limit });
    expect(large).toMatch(/^Rises straight on\. Check hoses, gauge connection and valve cores first/);
    expect(large).toContain('dry nitrogen');
    expect(words({ cause: 'leak', rise: 0.999 * limit })).toMatch(
      /^Rises straight on\. It is less than the usual hold limits/,
    );
    // half an hour, or the whole log where that is longer
    expect(words({ cause: 'leak', span: 600 })).toContain('longer than 30 min to level off');
    expect(words({ cause: 'leak', span: 5400 })).toContain('longer than 90 min to level off');
  });

  it('that levels off: where, how fast, and what to do', () => {
    const said = words({ cause: 'moisture', level: 1500 * MICRON, constant: 480 });
    expect(said).toMatch(
      /^Levels off towards 200 Pa \(1500 micron\), with a time constant of 8 min\. Break with dry nitrogen/,
    );
    expect(words({ cause: 'moisture' })).toMatch(/^Levels off\. Break with dry nitrogen/);
    expect(words({ cause: 'moisture', level: 100 })).toMatch(/^Levels off towards 100 Pa \(750 micron\)\. /);
  });

  it('that slows down, or bends and goes straight on', () => {
    expect(words({ cause: 'outgassing' })).toMatch(
      /^Slows down but does not level off.*a second hold that rises the same means a leak\.$/,
    );
    expect(words({ cause: 'leak and moisture' })).toMatch(/^Bends, then rises straight on.*Mend the leak first/);
  });
});

describe('what is said where there is no verdict', () => {
  it.each([
    ['few', 59, /^Needs 6 readings or more over five minutes or more: go on for 1 minute at least\.$/],
    ['few', 61, /go on for 2 minutes at least/],
    ['short', 600, /^The log is too short: go on for 10 minutes at least\.$/],
    [
      'noise',
      1800,
      /^No rise shows, but the scatter.*About 30 minutes more of readings, as close as so far, would settle it\.$/,
    ],
    [
      'noise',
      undefined,
      /^No rise shows, but the scatter.*Waiting alone will not settle it soon: use a steadier gauge\.$/,
    ],
    [
      'falling',
      undefined,
      /^The pressure falls, which none of the causes does: see that the valve to the pump is shut/,
    ],
    ['speeding up', undefined, /^The rise speeds up, which none of the causes does: see whether the system warms/],
  ] as const)('because of %s, %s s more', (doubt, moreTime, said) => {
    expect(doubtful({ doubt, moreTime })).toMatch(said);
  });

  it('because of the step of the gauge: what it could hide in an hour', () => {
    // a step of 10 Pa in a log of 20 minutes is 30 Pa an hour
    const said = doubtful({ doubt: 'resolution', resolution: 10, span: 1200, moreTime: 900 });
    expect(said).toContain('its step of 10 Pa (75 micron) could be 30 Pa (225 micron) an hour');
    expect(said).toContain('Go on for 15 minutes at least, or use a gauge with finer steps');
  });

  it('because causes are alike: the likeliest with its share, the next, and what would tell them apart', () => {
    const weights = [
      ['moisture', 0.614],
      ['leak', 0.3],
      ['outgassing', 0.086],
    ] as const;
    const alike = {
      doubt: 'alike',
      leaning: 'moisture',
      probability: 0.614,
      weights,
    } as unknown as Partial<HoldVerdict>;
    expect(doubtful({ ...alike, moreTime: 1500 })).toBe(
      'Most like moisture so far (61 %), then leak. About 25 minutes more of readings, as close as so far, would settle it.',
    );
    expect(doubtful(alike)).toMatch(
      /^Most like moisture so far \(61 %\), then leak\. Waiting alone will not settle it soon: break the vacuum/,
    );
    expect(doubtful({ ...alike, weights: [['moisture', 1]] })).toMatch(/^Most like moisture so far \(61 %\)\. Waiting/);
  });
});
