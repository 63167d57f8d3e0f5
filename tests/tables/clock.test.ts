import { describe, expect, it } from 'vitest';
import { clockText, dayOf, readClock } from '../../src/tables/clock.ts';

describe('a clock of a cell', () => {
  it.each([
    ['08:00', 480],
    ['8:30', 8 * 60 + 30],
    [' 8.30 pm ', 20 * 60 + 30],
    ['16h45', 16 * 60 + 45],
    ['07:15:30', 7 * 60 + 15.5],
    ['07:59:59', 7 * 60 + 59 + 59 / 60],
    ['00:00', 0],
    ['24:00', 24 * 60],
    // twelve hours
    ['4:30 pm', 16 * 60 + 30],
    ['4:30 AM', 4 * 60 + 30],
    ['4pm', 16 * 60],
    ['1 am', 60],
    ['12 am', 0],
    ['12:15 PM', 12 * 60 + 15],
    ['12 pm', 12 * 60],
    // a number below 1 is a share of the day, from 1 on hours
    ['0', 0],
    ['.5', 12 * 60],
    ['0.75', 18 * 60],
    ['0,25', 6 * 60],
    ['1', 60],
    ['8', 480],
    ['16.5', 16 * 60 + 30],
    ['24', 24 * 60],
  ])('reads %s', (text, minutes) => {
    expect(readClock(text)).toBeCloseTo(minutes, 9);
  });

  it('is without the noise of a share of the day, and no rounder than that', () => {
    // 7:20 is 22/72 of a day; cut to 16 places it is not quite 440 minutes
    expect(readClock('0.3055555555555556')).toBe(440);
    expect(readClock('0.30555555556')).toBe(440);
    // a tenth of a second is no noise
    expect(readClock('8.00003')).toBeCloseTo(480.0018, 9);
  });

  it.each([
    '',
    'noon',
    '8:60',
    '8:00:60',
    '8:5',
    '8:000',
    '24:01',
    '24:00:01',
    '25:00',
    '24.1',
    '-1',
    '0 am',
    '13 pm',
    '12:61 pm',
    '8 h',
    'at 8:00',
    '8:00 h',
    '108:00',
    '8:00:5',
    '1.2.3',
    '1e1',
  ])('does not read %s', (text) => {
    expect(readClock(text)).toBeUndefined();
  });
});

describe('a moment', () => {
  it.each([
    [0, '00:00', 1],
    [485, '08:05', 1],
    [12 * 60 + 34.4, '12:34', 1],
    [24 * 60 - 0.6, '23:59', 1],
    // rounded to the whole minute, the clock and the day go over together
    [24 * 60 - 0.4, '00:00', 2],
    [24 * 60, '00:00', 2],
    [48 * 60 + 61, '01:01', 3],
    [-30, '23:30', 0],
  ])('of %d minutes has its clock %s and its day %d', (minutes, clock, day) => {
    expect(clockText(minutes)).toBe(clock);
    expect(dayOf(minutes)).toBe(day);
  });
});
