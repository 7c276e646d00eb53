/** One US fluid ounce in millilitres: 1/128 of a US gallon of 231 cubic inches. Exact. */
export const ML_PER_US_FLUID_OUNCE = (231 * 25.4 ** 3) / 128 / 1000

/** Millilitres to US fluid ounces. */
export function mlToUsFluidOunces(ml: number): number {
  return ml / ML_PER_US_FLUID_OUNCE
}

/** US fluid ounces to millilitres. */
export function usFluidOuncesToMl(fluidOunces: number): number {
  return fluidOunces * ML_PER_US_FLUID_OUNCE
}

/** A volume in mL, shown in the reader's unit: '220 mL', '7.4 fl oz'. */
export function formatVolume(ml: number, unit: 'mL' | 'flOz'): string {
  return unit === 'mL' ? `${Math.round(ml)} mL` : `${mlToUsFluidOunces(ml).toFixed(1)} fl oz`
}
