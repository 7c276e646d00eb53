import type { WireReason } from '@clampclock/contracts'
import { ROUTES } from '../../api/contracts.ts'
import { useQueryClient } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { call } from '../../api/client.ts'
import { invalidateTopics } from '../../api/live.ts'
import { ProblemError } from '../../api/problem.ts'
import { t } from '../../lib/reader.ts'

export interface Wish {
  readonly operationId: string
  readonly startsAt: string
  readonly placeId?: string
  readonly technicianIds?: readonly string[]
  readonly workMinutes?: number
}

export type Verdict =
  | { readonly kind: 'asking'; readonly wish: Wish }
  | { readonly kind: 'allowed'; readonly wish: Wish; readonly others: number }
  | { readonly kind: 'refused'; readonly wish: Wish; readonly reasons: readonly WireReason[] }
  | { readonly kind: 'moved'; readonly wish: Wish; readonly others: number }

/** Questions while dragging are asked one at a time; only the newest answer counts. */
const PAUSE_MS = 120

/** Asks the server about a move while it is under way, and makes it when it is let go. */
export function useMove(planId: string) {
  const client = useQueryClient()
  const [verdict, setVerdict] = useState<Verdict>()
  const turn = useRef(0)
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)

  const send = async (wish: Wish, tryOnly: boolean) => {
    turn.current += 1
    const mine = turn.current
    setVerdict({ kind: 'asking', wish })
    try {
      const { technicianIds, ...rest } = wish
      const body = { ...rest, ...(technicianIds ? { technicianIds: [...technicianIds] } : {}), tryOnly }
      const answer = await call(ROUTES.movePlanned, { params: { planId }, body })
      if (!tryOnly && answer.isAllowed)
        await invalidateTopics(
          client,
          new Map([
            ['plans', null],
            ['bookings', null],
          ]),
        )
      if (mine !== turn.current) return
      const others = Math.max(0, answer.moved.length - 1)
      if (!answer.isAllowed) setVerdict({ kind: 'refused', wish, reasons: answer.reasons })
      else setVerdict({ kind: tryOnly ? 'allowed' : 'moved', wish, others })
    } catch (error) {
      if (mine !== turn.current) return
      setVerdict({ kind: 'refused', wish, reasons: reasonsOf(error) })
    }
  }
  const ask = (wish: Wish) => {
    clearTimeout(timer.current)
    timer.current = setTimeout(() => void send(wish, true), PAUSE_MS)
  }
  const make = (wish: Wish) => {
    clearTimeout(timer.current)
    return send(wish, false)
  }
  const forget = () => {
    clearTimeout(timer.current)
    turn.current += 1
    setVerdict(undefined)
  }
  return { verdict, ask, make, forget }
}

function reasonsOf(error: unknown): readonly WireReason[] {
  if (error instanceof ProblemError && error.reasons.length > 0) return error.reasons
  return [
    { code: 'unknown', message: error instanceof Error ? error.message : t('plan.theServiceDidNotAnswer') },
  ]
}
