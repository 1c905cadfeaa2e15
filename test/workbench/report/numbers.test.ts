import { describe, expect, it } from 'vitest';
import {
  formatChange,
  formatFixed,
  formatInterval,
  formatNumber,
  formatRange,
  formatSetting,
  formatShare,
  formatWithUnit,
  withUnit,
} from '../../../workbench/report/numbers.ts';

// All expectations written by hand.
describe('formatNumber', () => {
  it.each([
    [0, '0'],
    [0.21234, '0.212'],
    [18.26, '18.3'],
    [99.96, '100'],
    [1234.5, '1235'],
    [12345.6, '12\u202f346'],
    [0.00123, '0.0012'],
    [0.00001, '<0.0001'],
    [-0.00001, '>\u22120.0001'],
    [-3.7183, '\u22123.72'],
    [Number.POSITIVE_INFINITY, 'endless'],
    [Number.NaN, 'unknown'],
  ])('writes %f as %s', (value, text) => {
    expect(formatNumber(value)).toBe(text);
  });
});

describe('formatFixed', () => {
  it('never writes a negative zero', () => {
    expect(formatFixed(-0.004, 2)).toBe('0.00');
  });
});

describe('formatSetting', () => {
  it.each([
    [0.6, '0.6'],
    [20, '20'],
    [100, '100'],
    [0, '0'],
    [1.25, '1.25'],
  ])('writes %f without padding as %s', (value, text) => {
    expect(formatSetting(value)).toBe(text);
  });
});

describe('intervals', () => {
  it.each([
    [18.26, 17.8, 18.8, '18.3 (17.8 to 18.8)'],
    [18.26, 18.11, 18.42, '18.26 (18.11 to 18.42)'],
    [0.2588, 0.2497, 0.2691, '0.26 (0.25 to 0.27)'],
    [412, 371, 466, '412 (371 to 466)'],
    [5, 5, 5, '5.00'],
    [0.00001, 0, 0.00002, '<0.0001'],
  ])('gives %f (%f to %f) the digits that it deserves: %s', (value, low, high, text) => {
    expect(formatInterval({ value, low, high })).toBe(text);
  });

  it('leaves out a range whose ends read the same', () => {
    expect(formatRange({ value: 0.00031, low: 0.0003, high: 0.00032 })).toBe('');
  });

  it('puts the unit before the range', () => {
    expect(formatWithUnit({ value: 12.1, low: 11.5, high: 12.9 }, 'ms')).toBe('12.1\u00a0ms (11.5 to 12.9)');
  });

  it('signs changes', () => {
    expect(formatChange({ value: -0.21, low: -0.27, high: -0.16 })).toBe(
      '\u22120.21 (\u22120.27 to \u22120.16)',
    );
    expect(formatChange({ value: 0.05, low: -0.03, high: 0.12 })).toBe('+0.05 (\u22120.03 to +0.12)');
  });
});

describe('formatShare', () => {
  it.each([
    [1, '100\u00a0%'],
    [0.9995, '>99.9\u00a0%'],
    [0.996, '99.6\u00a0%'],
    [0.953, '95\u00a0%'],
    [0.001, '<0.5\u00a0%'],
    [0, '0\u00a0%'],
  ])('never rounds %f up to all or down to none: %s', (share, text) => {
    expect(formatShare(share)).toBe(text);
  });
});

describe('withUnit', () => {
  it('sets units apart, but not the degree sign', () => {
    expect(withUnit('2', 'ms')).toBe('2\u00a0ms');
    expect(withUnit('2', '° of the base joint')).toBe('2° of the base joint');
  });
});
