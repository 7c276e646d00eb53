import type { WireReason, RouteContract, WireResultOf, LiveTopic } from '@clampclock/contracts'
import { useState } from 'react'
import type { ActKind } from '../../../api/acts/act.ts'
import { useAct } from '../../../api/acts/use-act.ts'
import type { InputOf } from '../../../api/client.ts'
import { useAction } from '../../../api/use-action.ts'
import { refusalOf } from './refusal.ts'

interface Options<C extends RouteContract> {
  readonly topics: readonly LiveTopic[]
  readonly onDone?: (result: WireResultOf<C>) => void
}

interface Tried<Input> {
  readonly mutate: (input: Input, told: { readonly onError: (error: Error) => void }) => void
  readonly reset: () => void
  readonly error: Error | null
  readonly isPending: boolean
}

/** An act that gates may refuse: what refused it stays while reasons are written against it, sent, and sent again. */
export function useGate<C extends RouteContract>(route: C, { topics, onDone }: Options<C>) {
  const refusal = useRefusal()
  const action = useAction(route, {
    topics,
    onDone: (result) => {
      refusal.clear()
      onDone?.(result)
    },
  })
  const mutate: Tried<InputOf<C>>['mutate'] = (input, told) => action.mutate(input, told)
  return gateOf({ ...action, mutate }, refusal)
}

/** The same of an act on a bond, which is kept on the device until the service has answered. */
export function useBondGate<K extends ActKind>(kind: K, options: Parameters<typeof useAct<K>>[1]) {
  const refusal = useRefusal()
  const act = useAct(kind, {
    ...options,
    onDone: () => {
      refusal.clear()
      options.onDone?.()
    },
  })
  return { ...gateOf(act, refusal), waiting: act.waiting }
}

function useRefusal() {
  const [reasons, setReasons] = useState<readonly WireReason[]>()
  return {
    reasons,
    note: (error: Error) => setReasons((old) => refusalOf(error) ?? old),
    clear: () => setReasons(undefined),
  }
}

function gateOf<Input>(
  { mutate, reset, error, isPending }: Tried<Input>,
  { reasons, note, clear }: ReturnType<typeof useRefusal>,
) {
  return {
    run: (input: Input) => mutate(input, { onError: note }),
    refusal: reasons,
    error,
    isPending,
    close: () => {
      reset()
      clear()
    },
  }
}
