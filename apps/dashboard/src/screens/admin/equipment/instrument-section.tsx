import { ROUTES } from '../../../api/contracts.ts'
import { formatTemperatureDifference } from '@clampclock/quantities'
import { Button, Group } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { shopQueries } from '../../../api/queries/shops.ts'
import type { Instrument, Shop } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { formatDate } from '../../../lib/instants.ts'
import { INSTRUMENT } from '../../../lib/words.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section } from '../../../ui/page.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { CalibrationDialog } from './calibration-dialog.tsx'
import { InstrumentDialog } from './instrument-dialog.tsx'
import { SectionHead } from '../../../ui/section-head.tsx'

/** Hand-held thermometers and hygrometers, and until when each is calibrated. */
export function InstrumentSection({ shop }: { readonly shop: Shop }) {
  const instruments = useQuery(shopQueries.instruments(shop.id))
  const mayManage = useMay()('manageChain', shop.id)
  const [open, setOpen] = useState<'new' | Instrument>()
  const edit = useAction(ROUTES.editInstrument, { topics: ['shops'] })
  const close = () => setOpen(undefined)
  const columns: readonly Column<Instrument>[] = [
    { head: 'Name', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'Serial number', cell: ({ serialNumber }) => serialNumber },
    { head: 'Kind', cell: ({ kind }) => INSTRUMENT[kind] },
    { head: 'Accuracy', cell: (instrument) => accuracyOf(instrument, shop.temperatureUnit) },
    { head: 'Calibrated until', cell: (instrument) => <Calibration instrument={instrument} /> },
    {
      head: 'State',
      cell: ({ active }) =>
        active ? <Mark tone="ready">In use</Mark> : <Mark tone="quiet">Out of use</Mark>,
    },
    ...(mayManage
      ? [
          {
            head: 'Change',
            cell: (instrument: Instrument) => {
              const { id, name, version, active } = instrument
              const label = active ? 'Take out of use' : 'Put into use'
              return (
                <Group gap="xs" wrap="nowrap">
                  <Button
                    size="xs"
                    variant="default"
                    aria-label={`Calibrated: ${name}`}
                    onClick={() => setOpen(instrument)}
                  >
                    Calibrated…
                  </Button>
                  <Button
                    size="xs"
                    variant="default"
                    aria-label={`${label}: ${name}`}
                    loading={edit.isPending && edit.variables.params.instrumentId === id}
                    onClick={() =>
                      edit.mutate({
                        params: { instrumentId: id },
                        ifMatch: version,
                        body: { active: !active },
                      })
                    }
                  >
                    {label}
                  </Button>
                </Group>
              )
            },
          },
        ]
      : []),
  ]
  return (
    <Section title="Hand-held instruments">
      <SectionHead addLabel="Add instrument" onAdd={mayManage ? () => setOpen('new') : undefined} />
      <ProblemPanel error={edit.error} />
      <Answered query={instruments} what="instruments">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No instrument yet.">
              A joint of class S1 or S2 asks for a thermometer in calibration.
            </Empty>
          ) : (
            <Table caption="Hand-held instruments" columns={columns} rows={items} rowKey={({ id }) => id} />
          )
        }
      </Answered>
      {open === 'new' && <InstrumentDialog shop={shop} onClose={close} />}
      {open !== undefined && open !== 'new' && <CalibrationDialog instrument={open} onClose={close} />}
    </Section>
  )
}

function Calibration({
  instrument: { calibratedUntil, inCalibration },
}: {
  readonly instrument: Instrument
}) {
  const word = calibratedUntil === null ? 'Never calibrated' : formatDate(calibratedUntil)
  return (
    <Mark tone={inCalibration ? 'ready' : 'danger'}>
      {calibratedUntil === null || inCalibration ? word : `Ran out ${word}`}
    </Mark>
  )
}

function accuracyOf({ accuracyC, accuracyPercent }: Instrument, unit: 'C' | 'F'): string {
  return accuracyC === null ? `± ${accuracyPercent} %` : `± ${formatTemperatureDifference(accuracyC, unit)}`
}
