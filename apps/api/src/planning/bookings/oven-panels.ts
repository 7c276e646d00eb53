import { message, type Message } from '@clampclock/messages'
import type { ProblemReason } from '@clampclock/contracts'
import type { OvenPanel } from '@clampclock/cure'
import { OVEN_AIR_W_PER_M2K, panelConstant, STILL_AIR_W_PER_M2K } from '../../cure/index.ts'

export type JointInOven = Parameters<typeof panelConstant>[0] & { readonly name: string }

/**
 * The panels of a vehicle as the oven heats them, minutes. Each joint is a panel of its own: two sheets with the bond line
 * between them.
 *
 * @param told What to name, and to advise, for a panel that one temperature cannot stand for.
 */
export function ovenPanels(
  joints: readonly JointInOven[],
  told: { readonly field: string; readonly fix: Message },
): { panels: OvenPanel[]; reasons: ProblemReason[] } {
  const panels: OvenPanel[] = []
  const reasons: ProblemReason[] = []
  for (const joint of joints) {
    const oven = panelConstant(joint, OVEN_AIR_W_PER_M2K)
    const still = panelConstant(joint, STILL_AIR_W_PER_M2K)
    if (oven.kind === 'lumped' && still.kind === 'lumped') {
      panels.push({ name: joint.name, tauMinutes: oven.tauMinutes, coolingTauMinutes: still.tauMinutes })
      continue
    }
    reasons.push({
      code: 'panel-not-lumped',
      message: message('plan-problem.tooThick', { joint: joint.name, biot: Number(oven.biot.toFixed(2)) }),
      ...told,
    })
  }
  return { panels, reasons }
}
