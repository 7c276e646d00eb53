import { normalCdf, normalLoss, normalQuantile } from '../normal.ts'
import { meanPerDayMl, variancePerDay, type DailyDemand } from './daily-demand.ts'
import { certain, mixture, ofOneDay, overDays, quantileMl, sum, type Distribution } from './distribution.ts'

/** Demand over a time of supply, mL. */
export interface LeadDemand {
  readonly meanMl: number
  /** The least stock that suffices with this probability. */
  quantileMl(probability: number): number
  /** Expected shortage with this stock: E[max(0, D - s)]. */
  shortMl(stockMl: number): number
}

const BINS = 400

/** Demand over days that vary, normal: variance n s_d^2 + d^2 s_n^2 (Chopra & Meindl, Supply Chain Management). For what is used fast. */
export function normalLeadDemand(demand: DailyDemand, days: number, deviationDays: number): LeadDemand {
  const perDayMl = meanPerDayMl(demand)
  const meanMl = perDayMl * days
  const deviation = Math.sqrt(days * variancePerDay(demand) + (perDayMl * deviationDays) ** 2)
  if (deviation === 0)
    return { meanMl, quantileMl: () => meanMl, shortMl: (stockMl) => Math.max(0, meanMl - stockMl) }
  return {
    meanMl,
    quantileMl: (probability) => meanMl + Math.max(0, normalQuantile(probability)) * deviation,
    shortMl: (stockMl) => deviation * normalLoss((stockMl - meanMl) / deviation),
  }
}

/** The distribution itself, on a grid, for what is used now and then: jobs of the sizes that occur, on the days that they fall on. */
export function compoundLeadDemand(demand: DailyDemand, days: number, deviationDays: number): LeadDemand {
  const perDayMl = meanPerDayMl(demand)
  const longest = days + 4 * deviationDays + 1
  const spread = 6 * Math.sqrt(variancePerDay(demand) * longest)
  const topMl = Math.max(perDayMl * longest + spread, 3 * Math.max(...demand.sizesMl))
  // A whole number of bins to the smallest size: single sizes are then exact.
  const smallest = Math.min(...demand.sizesMl)
  const binMl = smallest / Math.ceil((smallest * (BINS - 1)) / topMl)
  const day = ofOneDay(demand, binMl, Math.ceil(topMl / binMl) + 1)
  const over = overVaryingDays(day, days, deviationDays)
  return {
    meanMl: perDayMl * days,
    quantileMl: (probability) => quantileMl(over, probability),
    shortMl: (stockMl) => over.mass.reduce((short, p, i) => short + p * Math.max(0, i * binMl - stockMl), 0),
  }
}

/** Whole days, as the normal falls on them, cut off at 0 and at four deviations. */
function overVaryingDays(day: Distribution, mean: number, deviation: number): Distribution {
  if (deviation === 0) return overDays(day, Math.round(mean))
  const first = Math.max(0, Math.floor(mean - 4 * deviation))
  const last = Math.ceil(mean + 4 * deviation)
  const upTo = (days: number) => normalCdf((days - mean) / deviation)
  const parts: { weight: number; of: Distribution }[] = []
  let of = first === 0 ? certain(0, day.binMl, day.mass.length) : overDays(day, first)
  for (let days = first; days <= last; days += 1) {
    const from = days === first ? 0 : upTo(days - 0.5)
    const to = days === last ? 1 : upTo(days + 0.5)
    parts.push({ weight: to - from, of })
    of = sum(of, day)
  }
  return mixture(parts)
}
