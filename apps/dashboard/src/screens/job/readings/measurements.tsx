import { Button, Group } from '@mantine/core'
import { useState } from 'react'
import { formatTemperature } from '../../../lib/measures.ts'
import type { Bond } from '../../../api/types.ts'
import { useMay } from '../../../api/use-me.ts'
import { QualityMark } from '../../../features/readings/quality-mark.tsx'
import { formatInstant } from '../../../lib/instants.ts'
import { useShop, zoneOf } from '../../../lib/shop-scope.ts'
import { READING_SOURCE } from '../../../lib/words.ts'
import { Table, type Column } from '../../../ui/table.tsx'
import styles from './measurements.module.css'
import { lazily } from '../../../ui/lazily.tsx'
import { reader, t } from '../../../lib/reader.ts'

const WithdrawDialog = lazily(async () => (await import('./withdraw-dialog.tsx')).WithdrawDialog)

const CorrectDialog = lazily(async () => (await import('./correct-dialog.tsx')).CorrectDialog)

type Measurement = Bond['measurements'][number]

/** Every panel reading of a joint with what makes it doubtful; what was taken back stays in sight. */
export function Measurements({ bond }: { readonly bond: Bond }) {
  const shop = useShop(bond.shopId)
  const [unit, zone] = [reader().temperature, zoneOf(shop)]
  const isEntitled = useMay()('takeResponsibility', bond.shopId)
  const [open, setOpen] = useState<{ readonly act: 'withdraw' | 'correct'; readonly reading: Measurement }>()
  const close = () => setOpen(undefined)
  const isCounted = ({ quality }: Measurement) => quality === 'good' || quality === 'suspect'
  const columns: readonly Column<Measurement>[] = [
    { head: 'job.when', cell: ({ at }) => formatInstant(at, zone) },
    { head: 'job.metal', number: true, cell: ({ temperatureC }) => formatTemperature(temperatureC, unit) },
    { head: 'job.state', explained: 'suspect', cell: ({ quality }) => <QualityMark quality={quality} /> },
    ...(isEntitled
      ? [
          {
            head: 'job.change' as const,
            cell: (reading: Measurement) =>
              isCounted(reading) ? (
                <Group gap="xs" wrap="nowrap">
                  {(['correct', 'withdraw'] as const).map((act) => (
                    <Button key={act} size="xs" variant="default" onClick={() => setOpen({ act, reading })}>
                      {act === 'correct' ? t('job.correct2') : t('job.withdraw2')}
                    </Button>
                  ))}
                </Group>
              ) : null,
          },
        ]
      : []),
    { head: 'job.why', cell: (reading) => <div className={styles['why']}>{why(reading)}</div> },
    { head: 'job.measuredWith', cell: ({ source }) => READING_SOURCE[source] },
    { head: 'job.by', cell: ({ by }) => by },
  ]
  return (
    <>
      <Table
        caption={t('job.panelReadingsOf', { jointName: bond.jointName })}
        rows={[...bond.measurements].reverse()}
        rowKey={({ id }) => id}
        columns={columns}
      />
      {open?.act === 'withdraw' && <WithdrawDialog reading={open.reading} unit={unit} onClose={close} />}
      {open?.act === 'correct' && <CorrectDialog reading={open.reading} unit={unit} onClose={close} />}
    </>
  )
}

function why({ findings, decision }: Measurement): string {
  const decided = decision === null ? [] : [`${decision.by}: ${decision.reason}`]
  return [...decided, ...findings.map(({ message }) => message)]
    .map((sentence) => (/[.?]$/.test(sentence) ? sentence : `${sentence}.`))
    .join(' ')
}
