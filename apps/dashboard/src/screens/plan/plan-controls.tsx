import { Button, SegmentedControl, TextInput } from '@mantine/core'
import { useNavigate } from '@tanstack/react-router'
import { ChevronLeft, ChevronRight } from 'lucide-react'
import { todayIn } from '../../lib/instants.ts'
import { FilterBar } from '../../ui/filter-bar.tsx'
import { shiftDay } from '../schedule/time-scale.ts'
import { readPlanSearch, ZOOMS, type RowKind, type Zoom } from './search.ts'
import { SCALES } from './zoom.ts'

interface Props {
  readonly from: string
  readonly zoom: Zoom
  readonly rows: RowKind
  readonly zone: string
  readonly isPhone: boolean
}

const ROWS = [
  { value: 'places', label: 'Bays and ovens' },
  { value: 'people', label: 'People' },
  { value: 'vehicles', label: 'Vehicles' },
]
const STEP_DAYS = { hours: 1, day: 1, days: 3, week: 7, month: 28 } as const

export function PlanControls({ from, zoom, rows, zone, isPhone }: Props) {
  const navigate = useNavigate({ from: '/plan' })
  const set = (change: Record<string, unknown>) => {
    void navigate({
      search: (old) => ({ ...old, ...readPlanSearch({ ...old, ...change }) }),
      replace: true,
    })
  }
  const step = STEP_DAYS[zoom]
  return (
    <FilterBar>
      <SegmentedControl
        aria-label="Rows"
        data={ROWS}
        value={rows}
        onChange={(value) => set({ rows: value })}
      />
      <Button.Group>
        <Button
          variant="default"
          px="xs"
          aria-label="Earlier"
          onClick={() => set({ from: shiftDay(from, -step) })}
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
          onClick={() => set({ from: shiftDay(from, step) })}
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
      {!isPhone && (
        <SegmentedControl
          aria-label="Zoom"
          data={ZOOMS.map((value) => ({ value, label: SCALES[value].label }))}
          value={zoom}
          onChange={(value) => set({ zoom: value })}
        />
      )}
    </FilterBar>
  )
}
