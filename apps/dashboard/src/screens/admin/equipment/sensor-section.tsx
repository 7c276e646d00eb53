import { Button } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { formatTemperature, formatTemperatureDifference } from '../../../lib/measures.ts'
import { shopQueries } from '../../../api/queries/shops.ts'
import { temperatureQueries } from '../../../api/queries/temperature.ts'
import type { Sensor, Shop } from '../../../api/types.ts'
import { useMay } from '../../../api/use-me.ts'
import { formatDate, formatInstant } from '../../../lib/instants.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Section } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { SectionHead } from '../../../ui/section-head.tsx'
import { SensorDialog } from './sensor-dialog.tsx'
import { SensorReadingsDialog } from './sensors/sensor-readings-dialog.tsx'
import { reader, t } from '../../../lib/reader.ts'

/** Thermometers: where each hangs, how exact it is, what it said last. */
export function SensorSection({ shop }: { readonly shop: Shop }) {
  const sensors = useQuery(temperatureQueries.sensors(shop.id))
  const resources = useQuery(shopQueries.resources(shop.id)).data?.items ?? []
  const locations = useQuery(shopQueries.locations(shop.id)).data?.items ?? []
  const may = useMay()
  const [adding, { open, close }] = useDisclosure()
  const [looking, setLooking] = useState<string>()
  const unit = reader().temperature
  const placeOf = ({ resourceId, locationId }: Sensor) =>
    [...resources, ...locations].find(({ id }) => id === resourceId || id === locationId)?.name
  const columns: readonly Column<Sensor>[] = [
    { head: 'admin.name', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'admin.where', cell: placeOf },
    { head: 'admin.accuracy', cell: ({ accuracyC }) => `± ${formatTemperatureDifference(accuracyC, unit)}` },
    {
      head: 'admin.calibratedUntil',
      cell: ({ calibratedUntil }) =>
        calibratedUntil === null ? t('admin.notRecorded') : formatDate(calibratedUntil),
    },
    {
      head: 'admin.latest',
      cell: ({ latest }) =>
        latest === null
          ? t('admin.nothingYet')
          : `${formatTemperature(latest.temperatureC, unit)}, ${formatInstant(latest.at, shop.timeZone)}`,
    },
    { head: 'admin.state', cell: (sensor) => <SensorState sensor={sensor} /> },
    {
      head: 'admin.readings',
      cell: (sensor) => (
        <Button
          size="xs"
          variant="default"
          aria-label={t('admin.readingsOf', { name: sensor.name })}
          onClick={() => setLooking(sensor.id)}
        >
          {t('admin.readings3')}
        </Button>
      ),
    },
  ]
  const items = sensors.data?.items ?? []
  const looked = items.find(({ id }) => id === looking)
  return (
    <Section title={t('admin.thermometers')}>
      <SectionHead
        addLabel={t('admin.addThermometer')}
        onAdd={may('manageChain', shop.id) ? open : undefined}
      />
      <Answered query={sensors} what={t('admin.thermometers2')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noThermometerYet')}>
              {t('admin.withoutOneABayHasNoForecastAndABond')}
            </Empty>
          ) : (
            <Table
              caption={t('admin.thermometers')}
              columns={columns}
              rows={inUseFirst(items)}
              rowKey={({ id }) => id}
            />
          )
        }
      </Answered>
      {adding && <SensorDialog shop={shop} resources={resources} locations={locations} onClose={close} />}
      {looked !== undefined && (
        <SensorReadingsDialog
          shop={shop}
          sensor={looked}
          others={items.filter((other) => isBeside(other, looked))}
          onClose={() => setLooking(undefined)}
        />
      )}
    </Section>
  )
}

function SensorState({ sensor: { retiredAt, doubtedSince, latest } }: { readonly sensor: Sensor }) {
  if (retiredAt !== null) return <Mark tone="quiet">{t('admin.outOfUse2')}</Mark>
  if (doubtedSince !== null) return <Mark tone="warning">{t('admin.doubted')}</Mark>
  if (latest?.quality === 'suspect') return <Mark tone="warning">{t('admin.doubtfulReading')}</Mark>
  return <Mark tone="ready">{t('admin.inUse')}</Mark>
}

function inUseFirst(sensors: readonly Sensor[]): Sensor[] {
  return [...sensors].sort((a, b) => Number(a.retiredAt !== null) - Number(b.retiredAt !== null))
}

/** In use, and in the same place: it may have taken over. */
function isBeside(other: Sensor, { id, resourceId, locationId }: Sensor): boolean {
  return (
    other.id !== id &&
    other.retiredAt === null &&
    other.resourceId === resourceId &&
    other.locationId === locationId
  )
}
