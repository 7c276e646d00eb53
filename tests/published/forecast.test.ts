import { estimateBond, forecastBayTemperature, type DataSheet, type HeatedHours } from '@clampclock/cure'
import { beforeAll, describe, expect, it } from 'vitest'
import { hourlyNormals, hourlyWeather, type HourlyTemperature } from './outside.ts'

const HOUR_MS = 3_600_000
const ZONE = 'America/Los_Angeles'
const LEADS = [1, 4, 12] as const
/** What the forecast may look back on. */
const PAST_HOURS = 45 * 24

/**
 * An unheated or a heated shop in that weather: the building follows it in half a day or so, the heater holds
 * 19 degC.
 */
function shopIn(weather: readonly HourlyTemperature[], isHeated: boolean): readonly HourlyTemperature[] {
  let inside = 15
  return weather.map(({ atMs, temperatureC }) => {
    const local = new Date(atMs - 8 * HOUR_MS)
    const [day, hour] = [local.getUTCDay(), local.getUTCHours()]
    inside += (temperatureC - inside) / 14
    if (isHeated && day >= 1 && day <= 5 && hour >= 7 && hour < 18)
      inside = Math.max(inside, Math.min(19, inside + 3))
    return { atMs, temperatureC: inside }
  })
}

const weekdays: readonly HeatedHours[] = [1, 2, 3, 4, 5].map((weekday) => ({
  weekday,
  fromHour: 7,
  toHour: 18,
}))
const seattle = hourlyWeather('Seattle')
const newYork = hourlyWeather('New York')

interface Set {
  readonly name: string
  readonly hours: readonly HourlyTemperature[]
  /** Share of the hours that comes before the first origin. */
  readonly from: number
  readonly heating: readonly HeatedHours[]
  readonly tags: string[]
}

/**
 * Constants of the forecast were chosen on 2014; these are 2015, all origins later than anything it had seen.
 * The normals have no weather, so all of their year is asked for after the first two months.
 */
const sets: readonly Set[] = [
  { name: 'Seattle, hourly normals', hours: hourlyNormals(), from: 0.17, heating: [], tags: ['long'] },
  { name: 'Seattle, weather of 2015', hours: seattle, from: 0.75, heating: [], tags: ['long'] },
  { name: 'New York, weather of 2015', hours: newYork, from: 0.75, heating: [], tags: [] },
  {
    name: 'a heated shop in Seattle',
    hours: shopIn(seattle, true),
    from: 0.75,
    heating: [],
    tags: ['long'],
  },
  {
    name: 'a heated shop in New York, hours of heating known',
    hours: shopIn(newYork, true),
    from: 0.75,
    heating: weekdays,
    tags: ['long'],
  },
]

const sheet: DataSheet = {
  points: [
    { temperatureC: 5, workTimeMinutes: 160, handlingTimeMinutes: 900, fullCureMinutes: 4300 },
    { temperatureC: 23, workTimeMinutes: 45, handlingTimeMinutes: 240, fullCureMinutes: 1440 },
  ],
  applicationRangeC: { min: 5, max: 35 },
  lowestCureC: -10,
  highestCureC: 60,
  serviceRangeC: { min: -40, max: 176.7 },
}

interface Tally {
  /** Sums of absolute errors and counts, for each lead. */
  readonly leads: readonly {
    ours: number
    asNow: number
    asYesterday: number
    inside: number
    count: number
  }[]
  bonds: number
  kept: number
}

function measure(hours: readonly HourlyTemperature[], from: number, heating: readonly HeatedHours[]): Tally {
  const leads = LEADS.map(() => ({ ours: 0, asNow: 0, asYesterday: 0, inside: 0, count: 0 }))
  const tally: Tally = { leads, bonds: 0, kept: 0 }
  for (let origin = Math.floor(hours.length * from); origin + 60 < hours.length; origin += 41) {
    const now = hours[origin]!
    const past = hours.slice(Math.max(0, origin - PAST_HOURS), origin + 1)
    const forecast = forecastBayTemperature(past, now.atMs, 40, ZONE, heating.length > 0 ? { heating } : {})
    LEADS.forEach((lead, i) => {
      const [point, truth, into] = [forecast[lead]!, hours[origin + lead]!.temperatureC, leads[i]!]
      into.ours += Math.abs(point.expectedC - truth)
      into.asNow += Math.abs(now.temperatureC - truth)
      into.asYesterday += Math.abs(hours[origin + lead - 24]!.temperatureC - truth)
      into.inside += truth >= point.lowC && truth <= point.highC ? 1 : 0
      into.count += 1
    })
    const bond = { sheet, appliedAtMs: now.atMs, nowMs: now.atMs }
    const readings = hours.slice(origin, origin + 60).map((hour) => {
      return { ...hour, accuracyC: 0, source: 'bayAir' } as const
    })
    const claimed = estimateBond({ ...bond, readings: readings.slice(0, 1), forecast }).handlingStrength
      .readyAt
    const really = estimateBond({ ...bond, readings, nowMs: readings.at(-1)!.atMs, forecast: [] })
      .handlingStrength.readyAt
    if (claimed.conservative.kind === 'never' || really.expected.kind === 'never') continue
    tally.bonds += 1
    tally.kept += really.expected.atMs <= claimed.conservative.atMs ? 1 : 0
  }
  return tally
}

/**
 * For FORECAST_TABLE=1: mean absolute errors of ours, "as now" and "as yesterday", the share inside the band,
 * promises kept.
 */
function tableRow(name: string, { leads, bonds, kept }: Tally): string {
  const mean = (sum: number, count: number): string => (sum / count).toFixed(2)
  const rows = leads.map(({ ours, asNow, asYesterday, inside, count }, i) => {
    return `${LEADS[i]} h: ${mean(ours, count)} / ${mean(asNow, count)} / ${mean(asYesterday, count)}, ${mean(inside, count)}`
  })
  return `${name}: ${rows.join('; ')}; kept ${kept} of ${bonds}`
}

for (const { name, hours, from, heating, tags } of sets)
  describe(`forecast of bay air: ${name}`, { tags }, () => {
    let tally: Tally
    beforeAll(() => {
      tally = measure(hours, from, heating)
      if (process.env['FORECAST_TABLE'] !== undefined) console.info(tableRow(name, tally))
    })

    it('beats both "same as now" and "same as yesterday" at 1, 4 and 12 h', () => {
      for (const lead of tally.leads) {
        expect(lead.count).toBeGreaterThan(150)
        expect(lead.ours).toBeLessThan(0.95 * Math.min(lead.asNow, lead.asYesterday))
      }
    })

    it('has a 90 % band that holds 85 to 95 % of what came', () => {
      for (const lead of tally.leads) {
        expect(lead.inside / lead.count).toBeGreaterThanOrEqual(0.85)
        expect(lead.inside / lead.count).toBeLessThanOrEqual(0.95)
      }
    })

    it('promises ready times that the bond keeps at least 95 times in 100', () => {
      expect(tally.bonds).toBeGreaterThan(150)
      expect(tally.kept / tally.bonds).toBeGreaterThanOrEqual(0.95)
    })
  })
