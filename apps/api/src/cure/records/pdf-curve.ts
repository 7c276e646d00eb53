import type { BondCurve } from '@clampclock/contracts'
import { message } from '@clampclock/messages'
import { printable, type Sheet } from '../../foundation/documents/pdf-sheet.ts'

const LEFT = 90
const WIDTH = 410
const HEIGHT = 110
const GAP = 26

type Point = BondCurve['points'][number]

/** Two plots over one time: the panel's temperature with its band, and progress towards handling strength. */
export function drawCurve(sheet: Sheet, curve: BondCurve): void {
  const { document } = sheet
  const { points } = curve
  const [first, last] = [points[0], points.at(-1)]
  if (!first || !last || last.at <= first.at) {
    sheet.line(message('record.nothingToDraw'))
    return
  }
  if (document.y + 2 * HEIGHT + 2 * GAP + 30 > document.page.height - 60) document.addPage()
  const top = document.y + 6
  const span = last.at.getTime() - first.at.getTime()
  const x = (at: Date) => LEFT + (WIDTH * (at.getTime() - first.at.getTime())) / span

  const temperatures = points.flatMap(({ lowC, highC }) => [lowC, highC])
  const [coldest, warmest] = [Math.min(...temperatures) - 1, Math.max(...temperatures) + 1]
  const warm = plot(sheet, top, [coldest, warmest], (celsius) => sheet.text({ celsius }))
  band(
    sheet,
    points,
    x,
    warm,
    ({ lowC }) => lowC,
    ({ highC }) => highC,
  )
  line(sheet, points, x, warm, ({ expectedC }) => expectedC, '#b03a2e')

  const below = top + HEIGHT + GAP
  const furthest = Math.max(...points.map(({ progress }) => progress.earliest))
  const most = Math.min(1.5, Math.max(1.1, furthest))
  const done = plot(sheet, below, [0, most], (share) => sheet.text({ share }))
  const clipped = (share: number) => Math.min(share, most)
  band(
    sheet,
    points,
    x,
    done,
    ({ progress }) => clipped(progress.conservative),
    ({ progress }) => clipped(progress.earliest),
  )
  line(sheet, points, x, done, ({ progress }) => clipped(progress.expected), '#1f618d')
  document
    .moveTo(LEFT, done(1))
    .lineTo(LEFT + WIDTH, done(1))
    .dash(3, { space: 2 })
    .lineWidth(0.7)
    .stroke('#000')
  document.undash()

  const marked = curve.events.filter(({ kind, at }) => kind !== 'reading' && at >= first.at && at <= last.at)
  for (const [i, { kind, at }] of marked.entries()) {
    document
      .moveTo(x(at), top)
      .lineTo(x(at), below + HEIGHT)
      .lineWidth(0.4)
      .stroke('#777')
    // One below the other, since events come in bunches; inside the frame at its right end.
    const y = below + HEIGHT - 8 - (i % 6) * 7
    const isFarRight = x(at) > LEFT + WIDTH - 50
    document.fontSize(6).fillColor('#333')
    document.text(
      printable(sheet.say(message('record.event', { event: kind }))),
      isFarRight ? x(at) - 52 : x(at) + 2,
      y,
      {
        width: 50,
        align: isFarRight ? 'right' : 'left',
        lineBreak: false,
      },
    )
  }
  document.fontSize(7).fillColor('#333')
  document.text(printable(sheet.text(sheet.at(first.at))), LEFT, below + HEIGHT + 3, { lineBreak: false })
  document.text(printable(sheet.text(sheet.at(last.at))), LEFT + WIDTH - 80, below + HEIGHT + 3, {
    width: 80,
    align: 'right',
  })
  document.y = below + HEIGHT + 16
  document.fontSize(9).fillColor('#000')
  sheet.line(message('record.curveHelp'))
}

/** A frame with its scale; answers where a value lies. */
function plot(
  { document }: Sheet,
  top: number,
  [low, high]: readonly [number, number],
  label: (value: number) => string,
): (value: number) => number {
  const y = (value: number) => top + HEIGHT - (HEIGHT * (value - low)) / (high - low)
  document.rect(LEFT, top, WIDTH, HEIGHT).lineWidth(0.5).stroke('#999')
  document.fontSize(7).fillColor('#333')
  for (const value of [low, (low + high) / 2, high])
    document.text(label(value), LEFT - 48, y(value) - 4, { width: 44, align: 'right', lineBreak: false })
  return y
}

type Value = (point: Point) => number

function band(
  { document }: Sheet,
  points: readonly Point[],
  x: (at: Date) => number,
  y: (value: number) => number,
  low: Value,
  high: Value,
): void {
  const corners = [
    ...points.map((point) => [x(point.at), y(high(point))] as const),
    ...points.toReversed().map((point) => [x(point.at), y(low(point))] as const),
  ]
  document
    .polygon(...corners.map((corner) => [...corner]))
    .fillOpacity(0.35)
    .fill('#bbb')
  document.fillOpacity(1)
}

function line(
  { document }: Sheet,
  points: readonly Point[],
  x: (at: Date) => number,
  y: (value: number) => number,
  value: Value,
  colour: string,
): void {
  for (const [i, point] of points.entries()) {
    if (i === 0) document.moveTo(x(point.at), y(value(point)))
    else document.lineTo(x(point.at), y(value(point)))
  }
  document.lineWidth(1.2).stroke(colour)
}
