import { wholeMl } from '@clampclock/quantities'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Droplets, ListChecks } from 'lucide-react'
import { useEffect, useRef, useState } from 'react'
import { temperatureQueries } from '../../api/queries/temperature.ts'
import type { Dispenser, Instrument, Joint, Product, RepairOrderDetail, Resource } from '../../api/types.ts'
import { Cautions } from '../../features/bonds/cautions.tsx'
import { byUsefulness } from '../../features/stock/standing.ts'
import { formatInstant } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { showElement } from '../../lib/show-element.ts'
import { useNow } from '../../lib/use-now.ts'
import { LeaveGuard } from '../../ui/dialogs/leave-guard.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { Amount } from './amount.tsx'
import { missingIn, emptyDraft, NO_BAY, type Draft } from './application.ts'
import { BayChoice } from './bay-choice.tsx'
import { CartridgeChoice, type ReservedCartridge } from './cartridge-choice.tsx'
import { CheckResult } from './check-result.tsx'
import { Conditions } from './conditions.tsx'
import { DispenserChoice } from './dispenser-choice.tsx'
import { OnAlready } from './on-already.tsx'
import { ApplySteps } from './prepare/apply-steps.tsx'
import { Preparation } from './prepare/preparation.tsx'
import { stepsAsked, stillAsked } from './prepare/steps-asked.ts'
import { PressNote } from './press-note.tsx'
import styles from './start-bond.module.css'
import { useKeptForm } from './kept-form.ts'
import { Step } from './step.tsx'
import { goOn, openFields, stepStates } from './steps.ts'
import { Overtaken } from './overtaken.tsx'
import { useScannedCartridge } from './use-scanned-cartridge.ts'
import { useScannedInstrument } from './use-scanned-instrument.ts'
import { useStartBond } from './use-start-bond.ts'
import { reader, t } from '../../lib/reader.ts'

interface Props {
  readonly job: RepairOrderDetail
  readonly joint: Joint
  /** Undefined where it could not be had. */
  readonly product: Product | undefined
  readonly cartridges: readonly ReservedCartridge[]
  readonly dispensers: readonly Dispenser[]
  readonly bays: readonly Resource[]
  readonly instruments: readonly Instrument[]
  /** What is kept for this very joint. */
  readonly keptIds: readonly string[]
}

export function StartBondForm({
  job,
  joint,
  product,
  cartridges,
  dispensers,
  bays,
  instruments,
  keptIds,
}: Props) {
  const shop = useShop(job.shopId)
  const unit = reader().temperature
  const nowMs = useNow(60_000)
  const [isAsked, setAsked] = useState(false)
  const form = useKeptForm(joint, emptyDraft(job.bay?.id ?? '', wholeMl(joint.amountNeededMl)))
  const { restored, draft, setDraft } = form
  const air = useQuery({
    ...temperatureQueries.bay(draft.bayId, job.shopId),
    enabled: draft.bayId !== '' && draft.bayId !== NO_BAY,
  }).data?.sensor?.latest
  const asked = stepsAsked(joint.panelMaterial, product)
  // The air is not filled in: what is copied off the bay's thermometer cannot show that it reads wrong.
  const filled: Draft = {
    ...draft,
    humidityPercent: draft.humidityPercent ?? air?.relativeHumidityPercent ?? undefined,
    prepared: stillAsked(draft.prepared, asked),
  }
  /** Where one dispenser alone takes the cartridge there is nothing to choose. */
  const onlyGun = (cartridgeId: string | undefined): string => {
    const form = cartridges.find(({ id }) => id === cartridgeId)?.cartridgeForm
    const guns = dispensers.filter(({ cartridgeForms }) => cartridgeForms.some((each) => each === form))
    return guns.length === 1 ? guns[0]!.id : ''
  }
  const set = (part: Partial<Draft>) => {
    // What was stood by was another temperature, or another amount.
    const isOther = 'panelC' in part || 'airC' in part || 'thermometer' in part
    const isOtherAmount = 'amountMl' in part || 'cartridgeIds' in part
    setDraft((old) => ({
      ...old,
      ...(isOther ? { confirmed: [] } : {}),
      ...(isOtherAmount ? { shortBecause: '' } : {}),
      ...(part.cartridgeIds && old.dispenserId === '' ? { dispenserId: onlyGun(part.cartridgeIds[0]) } : {}),
      ...part,
    }))
  }
  const scanned = useScannedCartridge(cartridges, joint, (id) =>
    set({ cartridgeIds: [...draft.cartridgeIds.filter((other) => other !== id), id] }),
  )
  const scannedInstrument = useScannedInstrument(instruments, draft.thermometer, set)
  const open = openFields(filled, asked)
  const states = stepStates(open)
  const whole = useRef<HTMLDivElement>(null)
  const sorted = [...cartridges].sort(byUsefulness(joint.amountNeededMl, nowMs, keptIds))
  const bonding = useStartBond(joint, job, cartridges, filled, form)
  const outcome = useRef<HTMLDivElement>(null)
  const { checked } = bonding
  useEffect(() => {
    if (checked !== undefined) showElement(outcome.current)
  }, [checked])
  const missing = isAsked ? missingIn(filled) : []
  const faultOf = (field: string) => missing.find((entry) => entry.field === field)?.message
  const ask = (act: (ready: Draft) => void) => () => {
    setAsked(true)
    if (missingIn(filled).length === 0) act(filled)
  }
  const start = (ready: Draft) => {
    // What the bay's thermometer says next is not what was sent: the same press, sent again, says the same.
    setDraft((old) => ({ ...old, humidityPercent: ready.humidityPercent }))
    bonding.start(ready)
  }
  return (
    // Enter goes on to what is still open, so that a hand in a glove need not look for it.
    <div ref={whole} role="presentation" onKeyDown={(event) => goOn(event, whole.current, open)}>
      {form.isOvertaken && bonding.unsentAt === undefined && !bonding.isStarting && (
        <Overtaken bond={joint.bonds.at(-1)} />
      )}
      {restored.from !== undefined && (
        <p className={styles['restored']}>
          {t('start-bond.asYouLeftItAt', {
            at: formatInstant(new Date(restored.from).toISOString(), zoneOf(shop), 'clock'),
          })}{' '}
          {restored.isStale && t('start-bond.measureAgainAndLookAtTheSurfaces')}
        </p>
      )}
      <Step
        title={t('start-bond.n1Cartridge')}
        state={states[0]}
        hint={t('start-bond.reservedForThisJointFirstThenTheOne')}
        fault={faultOf('cartridge')}
      >
        <CartridgeChoice
          cartridges={sorted}
          keptIds={keptIds}
          chosen={draft.cartridgeIds}
          needMl={draft.amountMl ?? joint.amountNeededMl}
          scanned={scanned}
          onChange={(cartridgeIds) => set({ cartridgeIds })}
        />
        <div className={styles['pair']}>
          <DispenserChoice
            dispensers={dispensers}
            form={cartridges.find(({ id }) => id === draft.cartridgeIds[0])?.cartridgeForm}
            draft={draft}
            fault={faultOf('dispenser')}
            onChange={set}
          />
          <BayChoice
            bays={bays}
            next={job.nextBay}
            zone={zoneOf(shop)}
            value={draft.bayId}
            fault={faultOf('bay')}
            onChange={(bayId) => set({ bayId })}
          />
          <Amount draft={draft} neededMl={joint.amountNeededMl} fault={faultOf('amount')} onChange={set} />
        </div>
      </Step>
      <Preparation
        asked={asked}
        done={filled.prepared}
        state={states[1]}
        onChange={(prepared) => set({ prepared })}
        onAll={() =>
          goOn(
            undefined,
            whole.current,
            open.filter((field) => field !== 'preparation'),
          )
        }
      />
      <Conditions
        draft={filled}
        state={states[2]}
        scanned={scannedInstrument}
        unit={unit}
        instruments={instruments}
        isHumidityFromBay={draft.humidityPercent === undefined && filled.humidityPercent !== undefined}
        faultOf={faultOf}
        thermometerFault={bonding.reasons.find(({ code }) => code === 'no-instrument')?.message}
        onChange={set}
      />
      <ApplySteps states={[states[3], states[4]]} glassBeadMm={product?.glassBeadMm}>
        <div ref={outcome} tabIndex={-1} data-outcome className={styles['outcome']}>
          <CheckResult
            bonding={bonding}
            isConfirming={bonding.isStarting || bonding.isChecking}
            draft={filled}
            neededMl={joint.amountNeededMl}
            onMend={set}
            onConfirm={(change) => {
              set(change)
              const act = bonding.answer === undefined ? start : bonding.check
              ask((ready) => act({ ...ready, ...change }))()
            }}
            unit={unit}
            shopId={job.shopId}
            overrides={draft.overrides}
            onOverride={(code, reason) => set({ overrides: { ...draft.overrides, [code]: reason } })}
          />
          {bonding.isRefused && (
            <OnAlready
              isPending={bonding.isStarting}
              error={bonding.error}
              since={bonding.refusedAt && formatInstant(bonding.refusedAt, zoneOf(shop), 'clock')}
              onRecord={(happened) => ask((ready) => bonding.record(ready, happened))()}
            />
          )}
          {missing.length > 0 && (
            <ProblemPanel error={new Error(missing.map(({ message }) => message).join(' '))} />
          )}
        </div>
      </ApplySteps>
      <div className={styles['bar']}>
        <PressNote
          bonding={bonding}
          missingCount={missing.length}
          zone={zoneOf(shop)}
          onSeeWhy={() => showElement(outcome.current)}
        />
        <Button
          size="lg"
          variant="default"
          leftSection={<ListChecks size={20} aria-hidden />}
          loading={bonding.isChecking}
          disabled={bonding.isStarting}
          onClick={ask(bonding.check)}
        >
          {t('start-bond.check')}
        </Button>
        <Button
          data-open="press"
          size="lg"
          leftSection={<Droplets size={20} aria-hidden />}
          loading={bonding.isStarting}
          onClick={ask(start)}
        >
          {t('start-bond.adhesiveIsOn')}
        </Button>
      </div>
      <LeaveGuard isUnsaved={() => bonding.unsentAt !== undefined && !bonding.isKept} />
      <Cautions about={['apply', 'joint']} />
    </div>
  )
}
