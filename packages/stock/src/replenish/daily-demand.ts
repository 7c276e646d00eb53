import { demandProbability } from '../demand.ts'

/** What a day asks for: nothing, or, with `probability`, one of the sizes, each as likely as the next. */
export interface DailyDemand {
  readonly probability: number
  /** mL; at least one, each above 0. */
  readonly sizesMl: readonly number[]
}

/** So many of the latest demands stand for the next ones: older jobs say little of today's. */
const LATEST_SIZES = 40

/** A quarter: half a year is remembered, and a busier season is noticed within weeks. */
const SMOOTHING = 1 / 90

/**
 * Demand of a day from what was used on each day before: how often, smoothed day by day, and how much, drawn from the sizes
 * that occurred as in a bootstrap of intermittent demand (Willemain, Smart & Schwarz 2004). Why not Croston's rate is
 * measured in docs/decisions/0137.
 *
 * @param usedMl mL on each day, oldest first; not negative.
 * @returns Null while nothing was ever used.
 * @throws {RangeError} For a negative amount.
 */
export function dailyDemand(usedMl: readonly number[]): DailyDemand | null {
  const probability = demandProbability(usedMl, SMOOTHING)
  const sizesMl = usedMl.filter((ml) => ml > 0).slice(-LATEST_SIZES)
  return probability === 0 ? null : { probability, sizesMl }
}

/** Mean, mL a day. */
export function meanPerDayMl({ probability, sizesMl }: DailyDemand): number {
  return probability * mean(sizesMl)
}

/** Variance, mL squared a day. */
export function variancePerDay({ probability, sizesMl }: DailyDemand): number {
  const square = mean(sizesMl.map((ml) => ml * ml))
  return probability * square - (probability * mean(sizesMl)) ** 2
}

/** Adhesive that a job will take, known already. */
export interface BookedUse {
  /** Whole days from now, 0 for today. */
  readonly day: number
  readonly amountMl: number
}

/** In a week with bookings these are the plan, and the forecast only fills up what they leave. */
export const BOOKING_WINDOW_DAYS = 7

/** What is booked from one day to before another, mL. */
export function bookedBetween(booked: readonly BookedUse[], fromDay: number, toDay: number): number {
  return booked.reduce(
    (total, { day, amountMl }) => total + (day >= fromDay && day < toDay ? amountMl : 0),
    0,
  )
}

/** The share of the forecast that the bookings of a day's week leave: bookings are part of the forecast, not on top of it. */
export function shareLeft(perDayMl: number, booked: readonly BookedUse[], day: number): number {
  const week = Math.floor(day / BOOKING_WINDOW_DAYS) * BOOKING_WINDOW_DAYS
  const bookedMl = bookedBetween(booked, week, week + BOOKING_WINDOW_DAYS)
  return perDayMl > 0 ? Math.max(0, 1 - bookedMl / (perDayMl * BOOKING_WINDOW_DAYS)) : 0
}

/** @throws {RangeError} For an amount below 0. */
export function requireBooked(booked: readonly BookedUse[]): void {
  booked.forEach(({ amountMl }, i) => {
    if (!(amountMl >= 0)) throw new RangeError(`booked[${i}].amountMl is ${amountMl}: give mL, not negative`)
  })
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
