import { Button, TextInput } from '@mantine/core'
import { ChevronLeft, ChevronRight } from 'lucide-react'
import { shiftDay, todayIn } from '../../lib/instants.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  /** First day shown, `2031-05-31` on the shop's calendar. */
  readonly from: string
  readonly stepDays: number
  readonly zone: string
  readonly onChange: (from: string) => void
}

/** Through the days of a picture over time: back, today, on, or to any day. */
export function DaySteps({ from, stepDays, zone, onChange }: Props) {
  return (
    <>
      <Button.Group>
        <Button
          variant="default"
          px="xs"
          aria-label={t('ui.earlier')}
          onClick={() => onChange(shiftDay(from, -stepDays))}
        >
          <ChevronLeft size={18} aria-hidden />
        </Button>
        <Button variant="default" onClick={() => onChange(todayIn(zone, Date.now()))}>
          {t('ui.today')}
        </Button>
        <Button
          variant="default"
          px="xs"
          aria-label={t('ui.later')}
          onClick={() => onChange(shiftDay(from, stepDays))}
        >
          <ChevronRight size={18} aria-hidden />
        </Button>
      </Button.Group>
      <TextInput
        aria-label={t('ui.firstDay')}
        type="date"
        value={from}
        onChange={(event) => onChange(event.currentTarget.value)}
      />
    </>
  )
}
