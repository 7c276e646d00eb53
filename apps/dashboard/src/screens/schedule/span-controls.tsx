import { SegmentedControl } from '@mantine/core'
import { useNavigate } from '@tanstack/react-router'
import { DaySteps } from '../../ui/fields/day-steps.tsx'
import { FilterBar } from '../../ui/fields/filter-bar.tsx'
import { readScheduleSearch } from './search.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly from: string
  readonly days: 1 | 3 | 7
  readonly zone: string
}

const SPANS = [
  {
    value: '1',
    get label() {
      return t('schedule.day')
    },
  },
  {
    value: '3',
    get label() {
      return t('schedule.n3Days')
    },
  },
  {
    value: '7',
    get label() {
      return t('schedule.week')
    },
  },
]

export function SpanControls({ from, days, zone }: Props) {
  const navigate = useNavigate({ from: '/schedule' })
  const set = (change: Record<string, unknown>) => {
    void navigate({
      search: (old) => ({ ...old, ...readScheduleSearch({ ...old, ...change }) }),
      replace: true,
    })
  }
  return (
    <FilterBar>
      <DaySteps from={from} stepDays={days} zone={zone} onChange={(day) => set({ from: day })} />
      <SegmentedControl
        aria-label={t('schedule.howMuchIsShown')}
        data={SPANS}
        value={String(days)}
        onChange={(value) => set({ days: value })}
      />
    </FilterBar>
  )
}
