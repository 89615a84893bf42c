import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test } from 'vitest'
import { frameOf } from '@/app/ui/charts/frame'
import { Picture } from '@/app/ui/charts/picture'
import { type ChartSeries, letterOf } from '@/app/ui/charts/shapes'
import { Spark } from '@/app/ui/charts/spark'
import { TimeChart } from '@/app/ui/charts/time-chart'
import { UseChart } from '@/app/ui/charts/use-chart'

const point = (on: string, value: number) => ({ id: on, on, value, used: true })
const levels: ChartSeries = {
  name: 'at rest',
  mark: 'disc',
  stretches: [[point('2020-05-01', 3), point('2022-05-01', 4)]],
}
const draw = (props: Partial<Parameters<typeof TimeChart>[0]>) =>
  renderToStaticMarkup(
    <TimeChart title="Level" says="It fell." unit="m" series={[levels]} table={<table />} {...props} />,
  )
const count = (html: string, part: string) => html.split(part).length - 1

describe('a chart over time', () => {
  test('with nothing but its series has no legend, as one kind of mark explains itself', () => {
    expect(draw({})).not.toContain('chart-legend')
  })

  test('with nothing to show keeps its sentence and draws nothing', () => {
    const html = draw({ series: [{ ...levels, stretches: [] }] })
    expect(html).toContain('It fell.')
    expect(html).not.toContain('<svg')
  })

  test('names every level, interval, event and crossing in its legend', () => {
    const html = draw({
      bands: [
        {
          name: 'usual range',
          points: [
            { on: '2020-05-01', low: 2, high: 5 },
            { on: '2022-05-01', low: 2, high: 5 },
          ],
        },
      ],
      limits: [{ name: 'limit 4.5 m', value: 4.5 }],
      events: [{ on: '2021-01-01', name: 'rebuilt, 1 Jan 2021' }],
      forecast: {
        from: '2022-05-01',
        crossings: [{ name: 'reaches 6 m', value: 6, low: '2023-01-01', on: '2024-01-01', high: null }],
      },
    })
    const legend = html.slice(html.indexOf('chart-legend'))
    for (const words of ['usual range', 'limit 4.5 m', 'rebuilt, 1 Jan 2021', 'reaches 6 m'])
      expect(legend).toContain(words)
    expect(legend).toContain('>A</strong>')
  })

  test('marks a value of which only a bound is known, and draws no line through it', () => {
    const bound = { ...point('2021-05-01', 10), bound: 'below' as const }
    const html = draw({
      series: [{ ...levels, stretches: [[point('2020-05-01', 3), bound, point('2022-05-01', 4)]] }],
    })
    expect(html).toContain('less than this')
    expect(count(html, 'chart-mark-bound')).toBe(3) // two widths and the legend
    const lines = [...html.matchAll(/class="chart-line" d="([^"]*)"/g)].map((match) => match[1] ?? '')
    expect(lines.map((d) => d.split(/[ML]/).length - 1)).toEqual([2, 2])
  })

  test('points the arrowhead of "less than" to where smaller values are, on either axis', () => {
    const bound: ChartSeries = { ...levels, stretches: [[{ ...point('2021-05-01', 10), bound: 'below' }]] }
    const tip = (downwards: boolean) =>
      /chart-mark-bound" d="[^"]*l-5 (-?\d+)z/.exec(
        renderToStaticMarkup(<Picture size="wide" label="" series={[bound]} downwards={downwards} />),
      )?.[1]
    expect(tip(false)).toBe('8')
    expect(tip(true)).toBe('-8')
  })

  test('draws an open end of an interval as an arrowhead at the edge, a known one as a stop', () => {
    const html = (high: string | null) =>
      renderToStaticMarkup(
        <Picture
          size="wide"
          label=""
          series={[levels]}
          downwards={false}
          span={{ from: '2020-01-01', to: '2026-01-01' }}
          forecast={{
            from: '2022-05-01',
            crossings: [{ name: 'x', value: 2, low: '2023-01-01', on: '2024-01-01', high }],
          }}
        />,
      )
    expect(html('2025-01-01')).not.toContain('l6 5l-6 5"')
    expect(html(null)).toContain('l6 5l-6 5"')
    expect(html('2040-01-01')).toContain('l6 5l-6 5"')
  })
})

describe('the frame of a chart', () => {
  test('puts the same day at the same place in two charts of one span, whatever their values', () => {
    const span = { from: '2018-01-01', to: '2026-01-01' }
    const small = frameOf('narrow', [levels], true, { span })
    const large = frameOf('narrow', [{ ...levels, stretches: [[point('2021-01-01', 4200)]] }], false, {
      span,
    })
    expect(large.x('2021-06-01')).toBe(small.x('2021-06-01'))
  })

  test('makes room for levels, intervals and expectations beyond the values', () => {
    const frame = frameOf('wide', [levels], false, {
      limits: [{ name: 'limit', value: 9 }],
      forecast: {
        from: '2022-05-01',
        crossings: [{ name: 'x', value: 1, low: null, on: '2030-01-01', high: null }],
      },
    })
    expect(frame.y(9)).toBeGreaterThanOrEqual(frame.top)
    expect(frame.y(1)).toBeLessThanOrEqual(frame.bottom)
    expect(frame.x('2030-01-01')).toBeLessThanOrEqual(frame.right)
  })
})

test('a small picture draws what lies beyond its axes at its edge', () => {
  const html = renderToStaticMarkup(
    <Spark
      label="falls"
      points={[
        { on: '2010-01-01', value: 2 },
        { on: '2021-01-01', value: 0.5 },
      ]}
      span={{ from: '2020-01-01', to: '2022-01-01' }}
      range={[0, 1.25]}
      levels={[1, 0.75]}
    />,
  )
  expect(html).toContain('M4,4L')
  expect(html).toContain('aria-label="falls"')
  expect(count(html, 'spark-level')).toBe(2)
})

test('events are lettered A to Z and on', () => {
  expect([0, 25, 26, 53].map(letterOf)).toEqual(['A', 'Z', 'A2', 'B3'])
})

describe('a chart over use', () => {
  const drops: ChartSeries<number> = {
    name: 'this cartridge',
    mark: 'disc',
    stretches: [[0, 50, 100].map((on) => ({ id: `${on}`, on, value: 10 + on / 10, used: true }))],
  }

  test('counts along its foot from nothing, in even steps, and says what it counts', () => {
    const { x, xTicks } = frameOf('wide', [drops], false, { span: { from: 0, to: 120 } })
    expect(x(100) - x(50)).toBeCloseTo(x(50) - x(0), 9)
    expect(xTicks.map(({ text }) => text)).toEqual(['0', '20', '40', '60', '80', '100', '120'])
    const html = renderToStaticMarkup(
      <UseChart title="Drop" says="It rose." unit="kPa" along="m³" series={[drops]} table={<table />} />,
    )
    expect(html).toContain('against m³')
    expect(html).not.toContain('20:00')
  })

  test('draws intervals and levels as one over time does', () => {
    const html = renderToStaticMarkup(
      <UseChart
        title="Drop"
        says="It rose."
        unit="kPa"
        along="m³"
        series={[drops]}
        bands={[
          {
            name: 'expected',
            points: [
              { on: 0, low: 5, high: 15 },
              { on: 150, low: 20, high: 40 },
            ],
          },
        ]}
        limits={[{ name: 'terminal drop', value: 30 }]}
        table={<table />}
      />,
    )
    expect(count(html, 'class="chart-band')).toBeGreaterThan(1)
    expect(html).toContain('terminal drop')
    expect(html).not.toContain('NaN')
  })
})
