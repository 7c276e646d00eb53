/**
 * What this suite checks against: an ODE solver, ASHRAE's psychrometrics and weather records, each a package
 * of its own. Both programs ship without usable types (one as TypeScript that is not strict), so they are
 * loaded and typed here.
 */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

const require = createRequire(import.meta.url)

interface OdexSolver {
  absoluteTolerance: number
  relativeTolerance: number
  maxSteps: number
  solve(
    derivative: (x: number, y: readonly number[]) => number[],
    x: number,
    y: readonly number[],
    xEnd: number,
  ): { readonly y: readonly number[]; readonly outcome: number }
}

const { Solver } = require('odex') as { readonly Solver: new (n: number) => OdexSolver }

/**
 * y(to) of y' = f(t, y), y(from) = y0, by ODEX (Hairer, Norsett, Wanner: extrapolation of the midpoint rule).
 */
export function solveOde(
  f: (t: number, y: number) => number,
  from: number,
  y0: number,
  to: number,
  tolerance = 1e-11,
): number {
  const solver = new Solver(1)
  solver.absoluteTolerance = tolerance
  solver.relativeTolerance = tolerance
  solver.maxSteps = 100_000
  const { y, outcome } = solver.solve((t, [value]) => [f(t, value!)], from, [y0], to)
  if (outcome !== 0) throw new Error(`odex gave up between ${from} and ${to}`)
  return y[0]!
}

/** ASHRAE Handbook - Fundamentals 2017, chapter 1, as written down in psychrolib. SI units. */
export const psychrolib = require('psychrolib') as {
  readonly SI: number
  SetUnitSystem(system: number): void
  GetTDewPointFromRelHum(dryBulbC: number, relativeHumidity: number): number
  GetSatVapPres(dryBulbC: number): number
}
psychrolib.SetUnitSystem(psychrolib.SI)

const data = (file: string): readonly (readonly string[])[] =>
  readFileSync(new URL(`../../node_modules/vega-datasets/data/${file}`, import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => line.split(','))

export interface HourlyTemperature {
  readonly atMs: number
  readonly temperatureC: number
}

/**
 * A year of hourly temperatures at Seattle: NOAA's 1981-2010 normals (vega-datasets,
 * seattle-weather-hourly-normals.csv). Three decades are averaged, so there is no weather in it: the shape of
 * days and seasons only.
 */
export function hourlyNormals(): readonly HourlyTemperature[] {
  return data('seattle-weather-hourly-normals.csv').map(([date, , temperature]) => {
    return { atMs: Date.parse(`${date!}Z`), temperatureC: Number(temperature) }
  })
}

/**
 * Hourly temperatures with real weather, 2012 to 2015: NOAA's daily extremes of a city (vega-datasets,
 * weather.csv), joined from each minimum to the next maximum and back in the shape of that day's hourly
 * normals. The hours between the extremes are smoother than a thermometer's; from day to day all is as it was
 * measured.
 */
export function hourlyWeather(city: 'Seattle' | 'New York'): readonly HourlyTemperature[] {
  const normals = new Map<string, number>()
  for (const { atMs, temperatureC } of hourlyNormals())
    normals.set(new Date(atMs).toISOString().slice(5, 13), temperatureC)
  const normal = (atMs: number): number => {
    const key = new Date(atMs).toISOString().slice(5, 13)
    return normals.get(key) ?? normals.get(key.replace('02-29', '02-28')) ?? normals.get('01-01T01')!
  }
  const anchors = data('weather.csv')
    .filter(([location]) => location === city)
    .flatMap(([, date, , highest, lowest]) => {
      const day = Date.parse(`${date!}T00:00:00Z`)
      const hours = Array.from({ length: 24 }, (_, hour) => day + hour * 3_600_000)
      const morning = hours.slice(1, 10).reduce((a, b) => (normal(b) < normal(a) ? b : a))
      const afternoon = hours.slice(11, 20).reduce((a, b) => (normal(b) > normal(a) ? b : a))
      return [
        { atMs: morning, temperatureC: Number(lowest) },
        { atMs: afternoon, temperatureC: Number(highest) },
      ]
    })
  return anchors.slice(1).flatMap((to, i) => {
    const from = anchors[i]!
    const steps = Math.round((to.atMs - from.atMs) / 3_600_000)
    const rise = normal(to.atMs) - normal(from.atMs)
    return Array.from({ length: steps }, (_, step) => {
      const atMs = from.atMs + step * 3_600_000
      const share = Math.min(Math.max((normal(atMs) - normal(from.atMs)) / rise, 0), 1)
      return { atMs, temperatureC: from.temperatureC + share * (to.temperatureC - from.temperatureC) }
    })
  })
}
