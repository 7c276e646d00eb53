import type { Range } from '@clampclock/quantities'
import { GAS_CONSTANT } from './gas-constant.ts'

/** What a two-part structural adhesive is made of. */
export type AdhesiveChemistry = 'acrylic' | 'epoxy' | 'polyurethane'

/**
 * Range of published activation energies of cure, kJ/mol. Where a sheet does not say how temperature acts, the
 * careful side takes the worse end of it.
 */
export const ACTIVATION_ENERGY_KJ_PER_MOL: Readonly<Record<AdhesiveChemistry, Range>> = {
  // 95.9 kJ/mol: urethane-acrylate with peroxide, J. Appl. Polym. Sci. 77 (2000) 355. The low end, of cures that an
  // amine starts at room temperature, is from memory.
  acrylic: { min: 40, max: 96 },
  // Epoxy and amine: most of the literature lies between 45 and 70, from memory.
  epoxy: { min: 40, max: 75 },
  // Isocyanate and polyol, with and without catalyst, from memory.
  polyurethane: { min: 30, max: 75 },
}

/** The range as slope E/R, K; over all chemistries where it is not known which. */
export function activationSlopesK(chemistry: AdhesiveChemistry | undefined): Range {
  const all = Object.values(ACTIVATION_ENERGY_KJ_PER_MOL)
  const { min, max } =
    chemistry === undefined
      ? { min: Math.min(...all.map((range) => range.min)), max: Math.max(...all.map((range) => range.max)) }
      : ACTIVATION_ENERGY_KJ_PER_MOL[chemistry]
  return { min: (min * 1000) / GAS_CONSTANT, max: (max * 1000) / GAS_CONSTANT }
}
