import { ROUTES } from '../../api/contracts.ts'
import { Button, Group, NumberInput } from '@mantine/core'
import { useState } from 'react'
import type { PlannedOperation } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { serverNowMs } from '../../api/server-clock.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly operation: PlannedOperation
  readonly onDone: () => void
}

const TOPICS = ['plans', 'repairs'] as const

/** Started, finished, or longer than planned: told by whoever works on it. A bond is started at its joint. */
export function WorkButtons({ operation, onDone }: Props) {
  const { operationId, kind, startedAt, finishedAt } = operation
  const [minutes, setMinutes] = useState<number | string>(60)
  const start = useAction(ROUTES.startOperation, { topics: TOPICS, onDone })
  const finish = useAction(ROUTES.finishOperation, { topics: TOPICS, onDone })
  const delay = useAction(ROUTES.delayOperation, { topics: TOPICS, onDone })
  if (kind === 'bondAndClamp' || kind === 'cure' || finishedAt !== null) return null
  const params = { operationId }
  if (startedAt === null) {
    return (
      <div>
        <Button
          variant="default"
          loading={start.isPending}
          onClick={() => start.mutate({ params, body: {} })}
        >
          {t('plan.itBeginsNow')}
        </Button>
        <ProblemPanel error={start.error} />
      </div>
    )
  }
  return (
    <div>
      <Group align="flex-end">
        <Button variant="default" loading={finish.isPending} onClick={() => finish.mutate({ params })}>
          {t('plan.itIsFinished')}
        </Button>
        <NumberInput
          label={t('plan.minutesToGo')}
          min={1}
          max={10_080}
          w="8rem"
          value={minutes}
          onChange={setMinutes}
        />
        <Button
          variant="default"
          loading={delay.isPending}
          onClick={() =>
            delay.mutate({
              params,
              body: { expectedEndAt: new Date(serverNowMs() + Number(minutes) * 60_000).toISOString() },
            })
          }
        >
          {t('plan.itTakesSoLongStill')}
        </Button>
      </Group>
      <ProblemPanel error={finish.error ?? delay.error} />
    </div>
  )
}
