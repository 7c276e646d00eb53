import { TextInput } from '@mantine/core'
import { useState } from 'react'
import type { Bond } from '../../api/types.ts'
import { aboutBond } from '../../api/acts/about-bond.ts'
import { useAct } from '../../api/acts/use-act.ts'
import { happenedNow } from '../../api/client.ts'
import { GateList } from '../../features/bonds/gates/gate-list.tsx'
import { mayBeOverridden, overridesOf, refusalOf, type Written } from '../../features/bonds/gates/refusal.ts'
import { useBondGate } from '../../features/bonds/gates/use-gate.ts'
import { fromWallClock } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { ReasonDialog } from '../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly bond: Bond
  readonly onClose: () => void
}

/** What happened on the floor and is recorded late: the clamps on, or off before their time. */
export function ToldLaterDialog({ bond, onClose }: Props) {
  const shop = useShop(bond.shopId)
  const [at, setAt] = useState('')
  const [fault, setFault] = useState<string>()
  const isClamping = bond.state === 'applied'
  const options = {
    about: aboutBond(bond),
    topics: ['bonds', 'repairs', 'bookings', 'alerts'] as const,
    onDone: onClose,
    onKept: onClose,
  }
  const clamp = useBondGate('clampBond', options)
  const [written, setWritten] = useState<Written>({})
  const release = useAct('releaseBond', options)
  const confirm = (reason: string) => {
    const when = at === '' ? undefined : fromWallClock(at, zoneOf(shop))
    setFault(when !== undefined && 'fault' in when ? when.fault : undefined)
    if (when !== undefined && 'fault' in when) return
    const params = { bondId: bond.id }
    const instant = { at: when === undefined ? happenedNow() : when.iso }
    if (isClamping) clamp.run({ params, body: { ...instant, note: reason, overrides: overridesOf(written) } })
    else release.mutate({ params, body: { ...instant, alreadyHappened: true, reason } })
  }
  const close = () => {
    clamp.close()
    release.reset()
    onClose()
  }
  return (
    <ReasonDialog
      opened
      onClose={close}
      title={isClamping ? t('job.itWasClampedEarlier') : t('job.theClampsAreOffAlready')}
      reasonLabel={isClamping ? t('job.whyIsItRecordedLate') : t('job.whatHappenedAndWhy')}
      confirmLabel={t('job.recordIt')}
      isDanger={!isClamping}
      isPending={clamp.isPending || release.isPending}
      error={refusalOf(clamp.error) === undefined ? (clamp.error ?? release.error) : null}
      onConfirm={confirm}
    >
      <p style={{ margin: 0 }}>
        {isClamping
          ? t('job.aClampAfterTheWorkTimeIsRecordedAll')
          : t('job.beforeHandlingStrengthThisIsAnEarly')}
      </p>
      <TextInput
        label={t('job.when')}
        description={t('job.nowWhenLeftEmptyTheClockOf', { name: shop?.name ?? t('job.theShop') })}
        type="datetime-local"
        value={at}
        error={fault}
        onChange={(event) => setAt(event.currentTarget.value)}
      />
      {clamp.refusal !== undefined && (
        <GateList
          reasons={clamp.refusal}
          shopId={bond.shopId}
          written={written}
          isRequired={mayBeOverridden(clamp.refusal)}
          onWrite={(code, text) => setWritten((old) => ({ ...old, [code]: text }))}
        />
      )}
    </ReasonDialog>
  )
}
