import { formatMinutes, formatTemperature } from '@clampclock/quantities'
import { lazy, Suspense } from 'react'
import type { OvenWindow } from '../../api/types.ts'
import { Answer } from '../../ui/answers/answer.tsx'
import { Facts } from '../../ui/facts.tsx'
import { percentOf } from '../../ui/answers/percent.ts'
import { ReasonList } from '../../ui/answers/reason-list.tsx'
import { Table } from '../../ui/table.tsx'
import { Loading } from '../../ui/waiting.tsx'
import { OvenFigures } from './oven-figures.tsx'

const OvenPlot = lazy(() => import('./oven-plot.tsx'))

interface Props {
  readonly window: OvenWindow
  readonly metalTargetC: number
  readonly unit: 'C' | 'F'
}

/** The answer, every reason against it, the window drawn, and the same in figures. */
export function OvenResult({ window, metalTargetC, unit }: Props) {
  const minutes = (value: number | null) => (value === null ? 'never' : formatMinutes(value, 'up'))
  const degrees = (c: number) => formatTemperature(c, unit)
  return (
    <>
      <Answer
        tone={window.mayBake ? 'ready' : 'danger'}
        question="May this vehicle be baked then?"
        word={window.mayBake ? 'Yes' : 'No'}
      >
        <ReasonList reasons={[...window.refusals, ...window.cautions]} />
      </Answer>
      <Facts
        facts={[
          ['Metal when it is moved', degrees(window.metalStartC)],
          ['Metal at its warmest', window.peakMetalC === null ? null : degrees(window.peakMetalC)],
          [
            "Vehicle's own limit",
            window.limits.vehicleC === null ? 'None on record' : degrees(window.limits.vehicleC),
          ],
        ]}
      />
      {window.points.length > 0 && (
        <Suspense fallback={<Loading what="the oven window" />}>
          <OvenPlot window={window} metalTargetC={metalTargetC} unit={unit} />
        </Suspense>
      )}
      {window.points.length > 0 && <OvenFigures window={window} unit={unit} />}
      <Table
        caption="Times of the bake"
        rows={[
          { name: 'Until the slowest panel is at the target', ...window.heatUpMinutes },
          { name: 'Whole window, to book', ...window.windowMinutes },
        ]}
        rowKey={({ name }) => name}
        columns={[
          { head: 'What', cell: ({ name }) => name },
          { head: 'Earliest', number: true, cell: ({ earliest }) => minutes(earliest) },
          { head: 'Expected', number: true, cell: ({ expected }) => minutes(expected) },
          { head: 'Careful', number: true, cell: ({ conservative }) => minutes(conservative) },
        ]}
      />
      <Table
        caption="Panels in the oven"
        rows={window.panels}
        rowKey={({ name }) => name}
        columns={[
          { head: 'Panel', cell: ({ name }) => name },
          { head: 'At target after', number: true, cell: ({ heatUpMinutes }) => minutes(heatUpMinutes) },
          { head: 'Highest', number: true, cell: ({ peakMetalC }) => degrees(peakMetalC) },
        ]}
      />
      {window.bonds.length > 0 && (
        <Table
          caption="What the bake gives the bonds"
          rows={window.bonds}
          rowKey={({ joint }) => joint}
          columns={[
            { head: 'Joint', cell: ({ joint }) => joint },
            {
              head: 'Rated to',
              number: true,
              cell: ({ joint }) => {
                const own = window.limits.rated.find((each) => each.joint === joint)
                return own === undefined ? '' : formatTemperature(own.rangeC.max, unit, 0)
              },
            },
            {
              head: 'Gained of full cure, careful',
              number: true,
              cell: ({ gained }) => `${percentOf(gained.conservative)} %`,
            },
            {
              head: 'Full cure when cool, careful',
              number: true,
              cell: ({ fullCureProgress }) => `${percentOf(fullCureProgress.conservative)} %`,
            },
          ]}
        />
      )}
    </>
  )
}
