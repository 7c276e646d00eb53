import type { WireReason, RouteContract, WireResultOf, LiveTopic } from '@clampclock/contracts'
import { useState } from 'react'
import type { InputOf } from '../../../api/client.ts'
import { useAction } from '../../../api/use-action.ts'
import { refusalOf } from './refusal.ts'

interface Options<C extends RouteContract> {
  readonly topics: readonly LiveTopic[]
  readonly onDone?: (result: WireResultOf<C>) => void
}

/** An act that gates may refuse: what refused it stays while reasons are written against it, sent, and sent again. */
export function useGate<C extends RouteContract>(route: C, { topics, onDone }: Options<C>) {
  const [refusal, setRefusal] = useState<readonly WireReason[]>()
  const action = useAction(route, {
    topics,
    onDone: (result) => {
      setRefusal(undefined)
      onDone?.(result)
    },
  })
  return {
    run: (input: InputOf<C>) =>
      action.mutate(input, { onError: (error) => setRefusal((old) => refusalOf(error) ?? old) }),
    refusal,
    error: action.error,
    isPending: action.isPending,
    close: () => {
      action.reset()
      setRefusal(undefined)
    },
  }
}
