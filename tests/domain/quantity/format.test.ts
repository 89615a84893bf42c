import { describe, expect, test } from 'vitest'
import {
  defaultUnitFor,
  displayUnit,
  formatNumber,
  formatQuantity,
  toSi,
  type UnitId,
  type UnitSystem,
  type Use,
} from '@/lib/domain/quantity'

describe('formatQuantity', () => {
  test.each<[value: number, unit: UnitId, Use, UnitSystem, string]>([
    [12.4, 'ft', 'depth', 'us', '12.4 ft'],
    [12.43, 'ft', 'depth', 'us', '12.43 ft'],
    [12, 'ft', 'depth', 'us', '12.0 ft'],
    [3.7, 'm', 'depth', 'metric', '3.70 m'],
    [36, 'in', 'bore', 'us', '36 in'],
    [36, 'in', 'bore', 'metric', '914 mm'],
    [9, 'gal/min', 'flow', 'us', '9.0 gal/min'],
    [9, 'gal/min', 'flow', 'metric', '34.1 L/min'],
    [1200, 'gal/d', 'demand', 'us', '1,200 gal/day'],
    [1200, 'gal/d', 'demand', 'metric', '4,542 L/day'],
    [1234567, 'gal', 'volume', 'us', '1,234,567 gal'],
    [45, 'psi', 'pressure', 'us', '45.0 psi'],
    [45, 'psi', 'pressure', 'metric', '310.3 kPa'],
    [0.375, 'in', 'brush', 'us', '0.375 in'],
    [9.5, 'mm', 'brush', 'metric', '9.5 mm'],
    [0.65, 'gal/min/ft', 'capacity', 'us', '0.65 gal/min per ft'],
    [0.65, 'gal/min/ft', 'capacity', 'metric', '8.1 L/min per m'],
    [68, 'degF', 'temperature', 'us', '68 °F'],
    [68, 'degF', 'temperature', 'metric', '20.0 °C'],
    [-5, 'degC', 'temperature', 'metric', '-5.0 °C'],
    [2600, 'ft', 'altitude', 'us', '2,600 ft'],
    [0.35, '1', 'share', 'us', '35%'],
    [1500, 'h', 'hours', 'metric', '1,500 h'],
    [0, 'gal/min', 'flow', 'us', '0.0 gal/min'],
  ])('%d %s as %s, %s: %s', (value, unit, use, system, text) => {
    expect(formatQuantity(toSi(value, unit), use, system).replace('\u00a0', ' ')).toBe(text)
  })

  test('puts a no-break space before the unit', () => {
    expect(formatQuantity(1, 'depth', 'metric')).toBe('1.00\u00a0m')
  })

  test('never shows a trickle as nothing', () => {
    expect(formatQuantity(toSi(0.0123, 'gal/min'), 'flow', 'us')).toBe('0.012\u00a0gal/min')
    expect(formatQuantity(toSi(-0.0004, 'm'), 'drawdown', 'metric')).toBe('-0.0004\u00a0m')
  })

  test('shows no minus before a zero', () => {
    expect(formatQuantity(-1e-12, 'depth', 'metric')).toBe('0.00\u00a0m')
    expect(formatQuantity(-0, 'depth', 'metric')).toBe('0.00\u00a0m')
    expect(formatQuantity(toSi(-0.01, 'degC'), 'temperature', 'metric')).toBe('0.0\u00a0°C')
  })

  test('throws on what is not a number, rather than showing it', () => {
    expect(() => formatQuantity(Number.NaN, 'depth', 'us')).toThrow(RangeError)
    expect(() => formatQuantity(Number.POSITIVE_INFINITY, 'depth', 'us')).toThrow(RangeError)
    expect(() => formatNumber(Number.NaN, 0, 2)).toThrow(RangeError)
  })
})

describe('units by use', () => {
  test('follow the system, and the unit shown is the unit assumed', () => {
    expect(displayUnit('depth', 'us')).toBe('ft')
    expect(displayUnit('bore', 'metric')).toBe('mm')
    expect(displayUnit('capacity', 'us')).toBe('gal/min/ft')
    expect(defaultUnitFor('demand', 'metric')).toBe('L/d')
    expect(defaultUnitFor('hours', 'us')).toBe('h')
  })
})

describe('formatNumber', () => {
  test.each<[number, number, number, string]>([
    [1234.5, 0, 2, '1,234.5'],
    [1234.5, 2, 2, '1,234.50'],
    [999.999, 0, 2, '1,000'],
    [123, 0, 0, '123'],
    [-1234567.891, 0, 1, '-1,234,567.9'],
    [0.5, 0, 3, '0.5'],
  ])('%d with %d to %d decimals is %s', (value, least, most, text) => {
    expect(formatNumber(value, least, most)).toBe(text)
  })
})
