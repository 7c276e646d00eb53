import { Modal, Stack, Switch } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { formatTemperature } from '../../../../lib/measures.ts'
import { temperatureQueries } from '../../../../api/queries/temperature.ts'
import type { ResultOf, Sensor, Shop } from '../../../../api/types.ts'
import type { ROUTES } from '@clampclock/contracts'
import { useMay } from '../../../../api/use-me.ts'
import { QualityMark } from '../../../../features/readings/quality-mark.tsx'
import { formatInstant } from '../../../../lib/instants.ts'
import { SENSOR_DECISION } from '../../../../lib/words.ts'
import { Table, type Column } from '../../../../ui/table.tsx'
import { Answered, Empty } from '../../../../ui/waiting.tsx'
import { SensorDecisionForm } from './sensor-decision-form.tsx'
import { reader, t } from '../../../../lib/reader.ts'

interface Props {
  readonly shop: Shop
  readonly sensor: Sensor
  /** The others of its place, which may hang there instead. */
  readonly others: readonly Sensor[]
  readonly onClose: () => void
}

type Reading = ResultOf<typeof ROUTES.listSensorReadings>['items'][number]
type Decision = ResultOf<typeof ROUTES.listSensorDecisions>['items'][number]

/** What a thermometer sent and what was doubted of it, what people decided, and deciding. */
export function SensorReadingsDialog({ shop, sensor, others, onClose }: Props) {
  const [onlyDoubtful, setOnlyDoubtful] = useState(true)
  const readings = useQuery(temperatureQueries.readings(sensor.id, shop.id, onlyDoubtful))
  const decisions = useQuery(temperatureQueries.decisions(sensor.id, shop.id))
  const isEntitled = useMay()('takeResponsibility', shop.id)
  const degrees = (c: number) => formatTemperature(c, reader().temperature)
  const when = (at: string) => formatInstant(at, shop.timeZone)
  const columns: readonly Column<Reading>[] = [
    { head: 'admin.when', cell: ({ at }) => when(at) },
    { head: 'admin.read', number: true, cell: ({ temperatureC }) => degrees(temperatureC) },
    { head: 'admin.sent', number: true, cell: ({ sentC }) => (sentC === null ? '' : degrees(sentC)) },
    { head: 'admin.state', cell: ({ quality }) => <QualityMark quality={quality} /> },
    { head: 'admin.why', cell: ({ findings }) => findings.map(({ message }) => message).join('. ') },
  ]
  const decided: readonly Column<Decision>[] = [
    { head: 'admin.when', cell: ({ at }) => when(at) },
    { head: 'admin.what', cell: ({ kind }) => SENSOR_DECISION[kind] },
    {
      head: 'admin.readings',
      cell: ({ span }) =>
        span === null
          ? ''
          : t('admin.readingsFromTo', {
              readings: span.readings,
              from: when(span.from),
              until: when(span.until),
            }),
    },
    { head: 'admin.by', cell: ({ by }) => by },
    { head: 'admin.why', cell: ({ reason }) => reason },
  ]
  return (
    <Modal opened onClose={onClose} title={sensor.name} size="60rem">
      <Stack gap="md">
        <Switch
          label={t('admin.onlyDoubtfulReadings')}
          checked={onlyDoubtful}
          onChange={(event) => setOnlyDoubtful(event.currentTarget.checked)}
        />
        <Answered query={readings} what={t('admin.readings2')}>
          {({ items }) =>
            items.length === 0 ? (
              <Empty title={onlyDoubtful ? t('admin.noDoubtfulReading') : t('admin.noReadingYet')} />
            ) : (
              <Table
                caption={t('admin.readingsOf', { name: sensor.name })}
                columns={columns}
                rows={items}
                rowKey={({ at }) => at}
              />
            )
          }
        </Answered>
        {decisions.data !== undefined && decisions.data.items.length > 0 && (
          <Table
            caption={t('admin.decidedAbout', { name: sensor.name })}
            columns={decided}
            rows={decisions.data.items}
            rowKey={({ id }) => id}
          />
        )}
        {isEntitled && sensor.retiredAt === null && (
          <SensorDecisionForm shop={shop} sensor={sensor} others={others} onDone={onClose} />
        )}
      </Stack>
    </Modal>
  )
}
