import { lazy, Suspense } from 'react'
import { formatMinutes, formatTemperature } from '../../lib/measures.ts'
import type { OvenWindow } from '../../api/types.ts'
import { Answer } from '../../ui/answers/answer.tsx'
import { Facts } from '../../ui/facts.tsx'
import { percentOf } from '../../ui/answers/percent.ts'
import { ReasonList } from '../../ui/answers/reason-list.tsx'
import { Table } from '../../ui/table.tsx'
import { Loading } from '../../ui/waiting.tsx'
import { OvenFigures } from './oven-figures.tsx'
import { t } from '../../lib/reader.ts'

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
        question={t('features.mayThisVehicleBeBakedThen')}
        word={window.mayBake ? t('features.yes') : t('features.no')}
      >
        <ReasonList reasons={[...window.refusals, ...window.cautions]} />
      </Answer>
      <Facts
        facts={[
          [t('features.metalWhenItIsMoved'), degrees(window.metalStartC)],
          [t('features.metalAtItsWarmest'), window.peakMetalC === null ? null : degrees(window.peakMetalC)],
          [
            t('features.vehiclesOwnLimit2'),
            window.limits.vehicleC === null ? t('features.noneOnRecord') : degrees(window.limits.vehicleC),
          ],
        ]}
      />
      {window.points.length > 0 && (
        <Suspense fallback={<Loading what={t('features.theOvenWindow')} />}>
          <OvenPlot window={window} metalTargetC={metalTargetC} unit={unit} />
        </Suspense>
      )}
      {window.points.length > 0 && <OvenFigures window={window} unit={unit} />}
      <Table
        caption={t('features.timesOfTheBake')}
        rows={[
          { name: t('features.untilTheSlowestPanelIsAtTheTarget'), ...window.heatUpMinutes },
          { name: t('features.wholeWindowToBook'), ...window.windowMinutes },
        ]}
        rowKey={({ name }) => name}
        columns={[
          { head: 'features.what', cell: ({ name }) => name },
          { head: 'features.earliest', number: true, cell: ({ earliest }) => minutes(earliest) },
          { head: 'features.expected', number: true, cell: ({ expected }) => minutes(expected) },
          { head: 'features.careful', number: true, cell: ({ conservative }) => minutes(conservative) },
        ]}
      />
      <Table
        caption={t('features.panelsInTheOven')}
        rows={window.panels}
        rowKey={({ name }) => name}
        columns={[
          { head: 'features.panel', cell: ({ name }) => name },
          {
            head: 'features.atTargetAfter',
            number: true,
            cell: ({ heatUpMinutes }) => minutes(heatUpMinutes),
          },
          { head: 'features.highest', number: true, cell: ({ peakMetalC }) => degrees(peakMetalC) },
        ]}
      />
      {window.bonds.length > 0 && (
        <Table
          caption={t('features.whatTheBakeGivesTheBonds')}
          rows={window.bonds}
          rowKey={({ joint }) => joint}
          columns={[
            { head: 'features.joint', cell: ({ joint }) => joint },
            {
              head: 'features.ratedTo2',
              number: true,
              cell: ({ joint }) => {
                const own = window.limits.rated.find((each) => each.joint === joint)
                return own === undefined ? '' : formatTemperature(own.rangeC.max, unit, 0)
              },
            },
            {
              head: 'features.gainedOfFullCureCareful',
              number: true,
              cell: ({ gained }) => `${percentOf(gained.conservative)} %`,
            },
            {
              head: 'features.fullCureWhenCoolCareful',
              number: true,
              cell: ({ fullCureProgress }) => `${percentOf(fullCureProgress.conservative)} %`,
            },
          ]}
        />
      )}
    </>
  )
}
