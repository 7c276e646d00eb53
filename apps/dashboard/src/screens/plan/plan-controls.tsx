import { SegmentedControl } from '@mantine/core'
import { useNavigate } from '@tanstack/react-router'
import { DaySteps } from '../../ui/fields/day-steps.tsx'
import { FilterBar } from '../../ui/fields/filter-bar.tsx'
import { readPlanSearch, ZOOMS, type RowKind, type Zoom } from './search.ts'
import { SCALES } from './picture/zoom.ts'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly from: string
  readonly zoom: Zoom
  readonly rows: RowKind
  readonly zone: string
  readonly isPhone: boolean
}

const ROWS = [
  {
    value: 'places',
    get label() {
      return t('plan.baysAndOvens')
    },
  },
  {
    value: 'people',
    get label() {
      return t('plan.people')
    },
  },
  {
    value: 'vehicles',
    get label() {
      return t('plan.vehicles')
    },
  },
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
  return (
    <FilterBar>
      <SegmentedControl
        aria-label={t('plan.rows')}
        data={ROWS}
        value={rows}
        onChange={(value) => set({ rows: value })}
      />
      <DaySteps from={from} stepDays={STEP_DAYS[zoom]} zone={zone} onChange={(day) => set({ from: day })} />
      {!isPhone && (
        <SegmentedControl
          aria-label={t('plan.zoom')}
          data={ZOOMS.map((value) => ({ value, label: SCALES[value].label }))}
          value={zoom}
          onChange={(value) => set({ zoom: value })}
        />
      )}
    </FilterBar>
  )
}
