import { message } from '@clampclock/messages'
import type { BodyOf, Help, helpRoutes } from '@clampclock/contracts'
import { addReadings, startProgress, whatWouldHelp, type Help as Computed } from '@clampclock/cure'
import { computed } from './named-fault.ts'
import { figuresOf, isRunning, isStillOn } from '../../work/index.ts'
import type { Tx } from '../../foundation/database/database.ts'
import { wrongState } from '../../foundation/problems/problem-error.ts'
import { bondsOfRepairOrder, type BondRow } from './bond-store.ts'
import { estimateOf } from './history.ts'
import { toReady } from './move-check.ts'

/**
 * What would have a bond ready by a wished instant, from its own history and the forecast of its bay.
 *
 * @throws {ProblemError} `wrong-state` for a bond that no longer cures; `invalid-request` for a wish that is over.
 */
export async function helpBond(
  tx: Tx,
  bond: BondRow,
  body: BodyOf<typeof helpRoutes.helpBond>,
  timeZone: string,
  now: Date,
): Promise<Help> {
  if (!isRunning(bond))
    throw wrongState(message('cure-problem.bondIs', { joint: bond.joint.name, state: bond.state }))
  const { history, fault } = await estimateOf(tx, bond, timeZone, now)
  if (fault !== null)
    throw wrongState(message('cure-problem.bondNotComputed', { joint: bond.joint.name }), fault)
  const {
    sheet,
    appliedAtMs,
    countsFromMs = appliedAtMs,
    readings,
    forecast,
    nowMs,
    panelTauMinutes,
    place,
  } = history
  const others = (await bondsOfRepairOrder(tx, bond.joint.repairOrderId)).filter(
    (other) => other.id !== bond.id && isStillOn(other),
  )
  const { ovenLimitC } = bond.joint.repairOrder
  const { by, warmestC, ...wish } = body
  return computed(body, { byMs: 'by' }, () =>
    toHelp(
      whatWouldHelp({
        ...wish,
        state: addReadings(startProgress(sheet, countsFromMs, panelTauMinutes, place), readings),
        nowMs,
        forecast,
        isClosed: bond.state === 'clamped',
        byMs: by.getTime(),
        ...(warmestC === undefined ? {} : { warmestC }),
        otherSheets: others.map((other) => figuresOf(other.sheet)),
        openSheets: others.filter(({ state }) => state === 'applied').map((other) => figuresOf(other.sheet)),
        ...(ovenLimitC === null ? {} : { vehicleLimitC: ovenLimitC }),
      }),
    ),
  )
}

/** As it is told over HTTP. */
export function toHelp(help: Computed): Help {
  return { ...help, readyAt: toReady(help.readyAt), readyAtWithHelp: toReady(help.readyAtWithHelp) }
}
