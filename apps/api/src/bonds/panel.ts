import { MATERIALS, panelTimeConstant, type MaterialName } from '@clampclock/cure'
import type { JointRow } from './joint-store.ts'

/** Still air of a shop. Cengel, and Incropera table 1.1, give 2 to 25 W/(m2 K). */
const STILL_AIR_W_PER_M2K = 10

/**
 * How fast the bonded panels follow the air of the bay, minutes: two sheets with the bond line between them, air on both sides.
 * Null where the panel is too thick or too poor a conductor for one temperature to stand for all of it; then only its
 * own readings count.
 */
export function panelTauMinutes(joint: JointRow): number | null {
  const sheet = {
    material: MATERIALS[joint.panelMaterial as MaterialName],
    thicknessMm: joint.panelThicknessMm,
  }
  const bondLine = { material: MATERIALS.curedAdhesive, thicknessMm: joint.product.glassBeadMm }
  const constant = panelTimeConstant({
    layers: [sheet, bondLine, sheet],
    sidesHeated: 2,
    heatTransferWPerM2K: STILL_AIR_W_PER_M2K,
  })
  return constant.kind === 'lumped' ? constant.tauMinutes : null
}
