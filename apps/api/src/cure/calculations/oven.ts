import type { BodyOf, calculationRoutes, OvenWindow } from '@clampclock/contracts'
import type { BakeRequest, ReadyInstant } from '@clampclock/cure'
import { ovenWindow, programOf } from '../ovens/oven-window.ts'
import { computed, requireSheets } from '../estimates/named-fault.ts'

type OvenBody = BodyOf<typeof calculationRoutes.calculateOven>

export function calculateOven(body: OvenBody): OvenWindow {
  requireSheets(Object.fromEntries(body.bonds.map(({ sheet }, i) => [`bonds.${i}.sheet`, sheet])))
  return computed(body, {}, () =>
    ovenWindow(requestOf(body), {
      timeZone: body.timeZone,
      unit: 'C',
      fields: { program: 'body.program', heat: 'body.program.setPointC', moveAt: 'body.moveAt' },
    }),
  )
}

function requestOf({ program, moveAt, metalStartC, panels, bonds, vehicleLimitC }: OvenBody): BakeRequest {
  return {
    program: programOf(program),
    moveAtMs: moveAt.getTime(),
    metalStartC,
    panels: panels.map(({ name, tauMinutes, coolingTauMinutes }) => ({
      name,
      tauMinutes,
      ...(coolingTauMinutes === undefined ? {} : { coolingTauMinutes }),
    })),
    bonds: bonds.map((bond) => ({ ...bond, handlingReadyAt: readyOf(bond.handlingReadyAt) })),
    ...(vehicleLimitC === undefined ? {} : { vehicleLimitC }),
  }
}

function readyOf(ready: OvenBody['bonds'][number]['handlingReadyAt']): ReadyInstant {
  return ready.kind === 'at' ? { kind: 'at', atMs: ready.at.getTime() } : ready
}
