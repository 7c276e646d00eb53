import { Button, SegmentedControl, TextInput } from '@mantine/core'
import { useNavigate } from '@tanstack/react-router'
import { ChevronLeft, ChevronRight } from 'lucide-react'
import { todayIn } from '../../lib/instants.ts'
import { FilterBar } from '../../ui/filter-bar.tsx'
import { readScheduleSearch } from './search.ts'
import { shiftDay } from './time-scale.ts'

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
      <Button.Group>
        <Button
          variant="default"
          px="xs"
          aria-label="Earlier"
          onClick={() => set({ from: shiftDay(from, -days) })}
        >
          <ChevronLeft size={18} aria-hidden />
        </Button>
        <Button variant="default" onClick={() => set({ from: todayIn(zone, Date.now()) })}>
          Today
        </Button>
        <Button
          variant="default"
          px="xs"
          aria-label="Later"
          onClick={() => set({ from: shiftDay(from, days) })}
        >
          <ChevronRight size={18} aria-hidden />
        </Button>
      </Button.Group>
      <TextInput
        aria-label="First day"
        type="date"
        value={from}
        onChange={(event) => set({ from: event.currentTarget.value })}
      />
      <SegmentedControl
        aria-label="How much is shown"
        data={SPANS}
        value={String(days)}
        onChange={(value) => set({ days: value })}
      />
    </FilterBar>
  )
}
