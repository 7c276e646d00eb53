import { formatTemperatureDifference } from '../../../lib/measures.ts'
import { ROUTES } from '../../../api/contracts.ts'
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
import { reader, t } from '../../../lib/reader.ts'

/** Hand-held thermometers and hygrometers, and until when each is calibrated. */
export function InstrumentSection({ shop }: { readonly shop: Shop }) {
  const instruments = useQuery(shopQueries.instruments(shop.id))
  const mayManage = useMay()('manageChain', shop.id)
  const [open, setOpen] = useState<'new' | Instrument>()
  const edit = useAction(ROUTES.editInstrument, { topics: ['shops'] })
  const close = () => setOpen(undefined)
  const columns: readonly Column<Instrument>[] = [
    { head: 'admin.name', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'admin.serialNumber', cell: ({ serialNumber }) => serialNumber },
    { head: 'admin.kind', cell: ({ kind }) => INSTRUMENT[kind] },
    { head: 'admin.accuracy', cell: (instrument) => accuracyOf(instrument, reader().temperature) },
    { head: 'admin.calibratedUntil', cell: (instrument) => <Calibration instrument={instrument} /> },
    {
      head: 'admin.state',
      cell: ({ active }) =>
        active ? (
          <Mark tone="ready">{t('admin.inUse')}</Mark>
        ) : (
          <Mark tone="quiet">{t('admin.outOfUse2')}</Mark>
        ),
    },
    ...(mayManage
      ? [
          {
            head: 'admin.change2' as const,
            cell: (instrument: Instrument) => {
              const { id, name, version, active } = instrument
              const label = active ? t('admin.takeOutOfUse') : t('admin.putIntoUse')
              return (
                <Group gap="xs" wrap="nowrap">
                  <Button
                    size="xs"
                    variant="default"
                    aria-label={t('admin.calibrated2', { name })}
                    onClick={() => setOpen(instrument)}
                  >
                    {t('admin.calibrated')}
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
    <Section title={t('admin.handHeldInstruments')}>
      <SectionHead addLabel={t('admin.addInstrument')} onAdd={mayManage ? () => setOpen('new') : undefined} />
      <ProblemPanel error={edit.error} />
      <Answered query={instruments} what={t('admin.instruments')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noInstrumentYet')}>{t('admin.aJointOfClassS1OrS2AsksForA')}</Empty>
          ) : (
            <Table
              caption={t('admin.handHeldInstruments')}
              columns={columns}
              rows={items}
              rowKey={({ id }) => id}
            />
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
  const word = calibratedUntil === null ? t('admin.neverCalibrated') : formatDate(calibratedUntil)
  return (
    <Mark tone={inCalibration ? 'ready' : 'danger'}>
      {calibratedUntil === null || inCalibration ? word : t('admin.ranOut2', { word })}
    </Mark>
  )
}

function accuracyOf({ accuracyC, accuracyPercent }: Instrument, unit: 'C' | 'F'): string {
  return accuracyC === null ? `± ${accuracyPercent} %` : `± ${formatTemperatureDifference(accuracyC, unit)}`
}
