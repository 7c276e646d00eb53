import { ROUTES } from '../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useQueryClient } from '@tanstack/react-query'
import { Truck } from 'lucide-react'
import { useEffect } from 'react'
import { repairQueries } from '../../api/queries/repairs.ts'
import type { ServerNow } from '../../api/server-clock.ts'
import type { RepairOrderDetail } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import type { BondClock } from '../../features/bonds/bond-clock.ts'
import { GateOutcome } from '../../features/bonds/gates/gate-outcome.tsx'
import { mayBeOverridden } from '../../features/bonds/gates/refusal.ts'
import { useGate } from '../../features/bonds/gates/use-gate.ts'
import { MoveAnswerPanel } from '../../features/bonds/move-answer-panel.tsx'
import { useDoubt } from '../../features/bonds/freshness.ts'
import { moveAnswer } from '../../features/bonds/move-answer.ts'
import styles from './job.module.css'
import { lazily } from '../../ui/lazily.tsx'
import { t } from '../../lib/reader.ts'

const ReasonDialog = lazily(async () => (await import('../../ui/dialogs/reason-dialog.tsx')).ReasonDialog)

interface Props {
  readonly job: RepairOrderDetail
  readonly clocks: readonly BondClock[]
  readonly now: ServerNow
  readonly zone: string
}

/** 'May I move it?' for the whole vehicle, and the move itself. */
export function MoveVehicle({ job, clocks, now, zone }: Props) {
  const may = useMay()
  const client = useQueryClient()
  const [telling, { open, close }] = useDisclosure()
  const { queryKey } = repairQueries.one(job.id)
  const isInDoubt = useDoubt(queryKey, job.moveCheck.asOf, now, job.id)
  const answer = moveAnswer(job.moveCheck, clocks, isInDoubt)
  const isAsking = answer.kind === 'asking'
  useEffect(() => {
    if (!isAsking) return undefined
    const ask = () => void client.invalidateQueries({ queryKey: repairQueries.one(job.id).queryKey })
    ask()
    const timer = setInterval(ask, 5_000)
    return () => clearInterval(timer)
  }, [isAsking, client, job.id])
  const topics = ['repairs', 'bonds', 'bookings', 'alerts'] as const
  const move = useGate(ROUTES.moveVehicle, { topics })
  const tell = useAction(ROUTES.moveVehicle, { topics, onDone: close })
  const params = { repairOrderId: job.id }
  const isStanding = job.bay !== null
  // Where all that is missing may be overridden, whoever asks is told what it takes.
  const mayAsk =
    answer.kind === 'yes' || (answer.kind === 'lacking' && mayBeOverridden(job.moveCheck.reasons))
  const mayMove = may('makeBonds', job.shopId) && isStanding
  return (
    <div>
      <MoveAnswerPanel
        question={t('job.mayIMoveTheVehicle')}
        answer={answer}
        reasons={job.moveCheck.reasons}
        measureAgain={job.moveCheck.measureAgain}
        now={now}
        asOf={job.moveCheck.asOf}
        zone={zone}
        yes={yesOf(job, clocks)}
      >
        {mayMove && (
          <div className={styles['buttons']} style={{ marginTop: '0.75rem' }}>
            {mayAsk && (
              <Button
                size="lg"
                leftSection={<Truck size={20} aria-hidden />}
                loading={move.isPending}
                onClick={() => move.run({ params, body: {} })}
              >
                {t('job.moveTheVehicleOut')}
              </Button>
            )}
            {answer.kind !== 'yes' && (
              <Button variant="default" onClick={open}>
                {t('job.itWasMovedAlready')}
              </Button>
            )}
          </div>
        )}
      </MoveAnswerPanel>
      <GateOutcome
        gate={move}
        title={t('job.theVehicleStays')}
        goOnLabel={t('job.moveItAnyway')}
        shopId={job.shopId}
        onGoOn={(overrides) => move.run({ params, body: { overrides } })}
      />
      {telling && (
        <ReasonDialog
          opened
          onClose={close}
          title={t('job.theVehicleWasMovedAlready')}
          reasonLabel={t('job.whatHappenedAndWhy')}
          confirmLabel={t('job.recordThatItWasMoved')}
          isDanger
          isPending={tell.isPending}
          error={tell.error}
          onConfirm={(reason) => tell.mutate({ params, body: { alreadyHappened: true, reason } })}
        >
          <p style={{ margin: 0 }}>{t('job.eachBondShortOfHandlingStrengthIs')}</p>
        </ReasonDialog>
      )}
    </div>
  )
}

function yesOf({ joints }: RepairOrderDetail, clocks: readonly BondClock[]) {
  const incidents = joints.flatMap(({ bonds }) => bonds.flatMap((bond) => bond.incidents))
  // Who overrode a gate answered for it then.
  if (incidents.some(({ kind, disposition }) => kind !== 'gateOverridden' && disposition === null)) {
    return { isPlain: false, because: t('job.anIncidentOfAnEarlierAttemptIsOpen') }
  }
  const isCured = clocks.some(({ phase }) => phase === 'ready')
  return {
    isPlain: true,
    because: isCured ? t('job.handlingStrengthIsReachedOnThe') : t('job.nothingOnItIsUnderClamps'),
  }
}
