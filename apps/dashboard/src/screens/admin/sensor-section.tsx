import { formatTemperature, formatTemperatureDifference } from '@clampclock/quantities'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { shopQueries } from '../../api/queries/shops.ts'
import { temperatureQueries } from '../../api/queries/temperature.ts'
import type { Sensor, Shop } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { formatDate, formatInstant } from '../../lib/instants.ts'
import { Section } from '../../ui/page.tsx'
import { Table, type Column } from '../../ui/table.tsx'
import { Answered, Empty } from '../../ui/waiting.tsx'
import { SectionHead } from './section-head.tsx'
import { SensorDialog } from './sensor-dialog.tsx'

/** Thermometers: where each hangs, how exact it is, what it said last. */
export function SensorSection({ shop }: { readonly shop: Shop }) {
  const sensors = useQuery(temperatureQueries.sensors(shop.id))
  const resources = useQuery(shopQueries.resources(shop.id)).data?.items ?? []
  const locations = useQuery(shopQueries.locations(shop.id)).data?.items ?? []
  const may = useMay()
  const [adding, { open, close }] = useDisclosure()
  const unit = shop.temperatureUnit
  const placeOf = ({ resourceId, locationId }: Sensor) =>
    [...resources, ...locations].find(({ id }) => id === resourceId || id === locationId)?.name
  const columns: readonly Column<Sensor>[] = [
    { head: 'Name', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'Where', cell: placeOf },
    { head: 'Accuracy', cell: ({ accuracyC }) => `± ${formatTemperatureDifference(accuracyC, unit)}` },
    {
      head: 'Calibrated until',
      cell: ({ calibratedUntil }) =>
        calibratedUntil === null ? 'not recorded' : formatDate(calibratedUntil),
    },
    {
      head: 'Latest',
      cell: ({ latest }) =>
        latest === null
          ? 'nothing yet'
          : `${formatTemperature(latest.temperatureC, unit)}, ${formatInstant(latest.at, shop.timeZone)}`,
    },
  ]
  return (
    <Section title="Thermometers">
      <SectionHead addLabel="Add thermometer" onAdd={may('manageChain', shop.id) ? open : undefined} />
      <Answered query={sensors} what="thermometers">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No thermometer yet.">
              Without one, a bay has no forecast, and a bond only its own readings.
            </Empty>
          ) : (
            <Table caption="Thermometers" columns={columns} rows={items} rowKey={({ id }) => id} />
          )
        }
      </Answered>
      {adding && <SensorDialog shop={shop} resources={resources} locations={locations} onClose={close} />}
    </Section>
  )
}
