import { MATERIALS, panelTimeConstant, type MaterialName, type TimeConstant } from '@clampclock/cure'

/** Still air of a shop. Cengel, and Incropera table 1.1, give 2 to 25 W/(m2 K). */
export const STILL_AIR_W_PER_M2K = 10
/** Moving air of an oven: the low end of the 25 to 250 W/(m2 K) of the same tables, so that time is not promised short. */
export const OVEN_AIR_W_PER_M2K = 25

interface BondedPanel {
  readonly panelMaterial: string
  readonly panelThicknessMm: number
  readonly product: { readonly glassBeadMm: number }
}

/** The bonded panels: two sheets with the bond line between them, air on both sides. */
export function panelConstant(joint: BondedPanel, heatTransferWPerM2K: number): TimeConstant {
  const sheet = {
    material: MATERIALS[joint.panelMaterial as MaterialName],
    thicknessMm: joint.panelThicknessMm,
  }
  const bondLine = { material: MATERIALS.curedAdhesive, thicknessMm: joint.product.glassBeadMm }
  return panelTimeConstant({ layers: [sheet, bondLine, sheet], sidesHeated: 2, heatTransferWPerM2K })
}

/**
 * How fast the bonded panels follow the air of the bay, minutes. Null where the panel is too thick or too poor a
 * conductor for one temperature to stand for all of it; then only its own readings count.
 */
export function panelTauMinutes(joint: BondedPanel): number | null {
  const constant = panelConstant(joint, STILL_AIR_W_PER_M2K)
  return constant.kind === 'lumped' ? constant.tauMinutes : null
}
