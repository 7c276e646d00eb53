import { SegmentedControl } from '@mantine/core'
import { useNavigate } from '@tanstack/react-router'
import { DaySteps } from '../../ui/fields/day-steps.tsx'
import { FilterBar } from '../../ui/fields/filter-bar.tsx'
import { readScheduleSearch } from './search.ts'

interface Props {
  readonly from: string
  readonly days: 1 | 3 | 7
  readonly zone: string
}

const SPANS = [
  { value: '1', label: 'Day' },
  { value: '3', label: '3 days' },
  { value: '7', label: 'Week' },
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
        aria-label="How much is shown"
        data={SPANS}
        value={String(days)}
        onChange={(value) => set({ days: value })}
      />
    </FilterBar>
  )
}
