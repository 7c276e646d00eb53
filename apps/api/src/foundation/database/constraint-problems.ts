import { message, type Message } from '@clampclock/messages'
import { ProblemError } from '../problems/problem-error.ts'
import { sqlState, violatedConstraint } from './sql-state.ts'

type Make = () => ProblemError

const exists =
  (field: string, says: Message): Make =>
  () =>
    new ProblemError('already-exists', says, [{ code: 'already-exists', field, message: says }])

/** What a person is told when the database itself refuses: one line a constraint. */
const BY_CONSTRAINT: Record<string, Make> = {
  booking__place_is_free: () =>
    new ProblemError('booking-taken', message('problem.placeTaken'), [
      {
        code: 'booking-taken',
        field: 'body.startsAt',
        message: message('problem.placeTaken'),
        fix: message('problem.placeTakenFix'),
      },
    ]),
  booking__within_capacity: () =>
    new ProblemError('booking-taken', message('problem.overCapacity'), [
      {
        code: 'over-capacity',
        field: 'body.units',
        message: message('problem.overCapacity'),
        fix: message('problem.overCapacityFix'),
      },
    ]),
  stock_on_hand__never_negative: () => new ProblemError('stock-short', message('problem.stockShort')),
  cartridge__never_negative: () => new ProblemError('stock-short', message('problem.cartridgeShort')),
  reservation__within_content: () => new ProblemError('stock-short', message('problem.reservedMeanwhile')),
  shipment_line__one_way_at_a_time: () => new ProblemError('wrong-state', message('problem.onItsWay')),
  bond__one_at_a_time: () => new ProblemError('wrong-state', message('problem.bondRunning')),
  bond__attempt_once: () => new ProblemError('changed-meanwhile', message('problem.bondMeanwhile')),
  shop__name_once: exists('body.name', message('problem.shopName')),
  person__email_once: exists('body.email', message('problem.email')),
  membership__once: exists('body.memberships', message('problem.roleTwice')),
  supplier__name_once: exists('body.name', message('problem.supplierName')),
  product_supply_pkey: exists('params.productId', message('problem.supplySaid')),
  product__name_once: exists('body.name', message('problem.productName')),
  product_sheet__revision_once: exists('body.revision', message('problem.revisionOnce')),
  webhook__name_once: exists('body.name', message('problem.webhookName')),
  product_gtin_pkey: exists('body.gtin', message('problem.gtinOnce')),
  dispenser__name_once: exists('body.name', message('problem.dispenserName')),
  storage_location__name_once: exists('body.name', message('problem.locationName')),
  resource__name_once: exists('body.name', message('problem.resourceName')),
  sensor__name_once: exists('body.name', message('problem.sensorName')),
  instrument__name_once: exists('body.name', message('problem.instrumentName')),
  repair_order__number_once: exists('body.number', message('problem.orderNumber')),
  work_shift__no_overlap: () => new ProblemError('changed-meanwhile', message('problem.hoursMeanwhile')),
  joint__name_once: exists('body.name', message('problem.jointName')),
  lot__number_once: () => new ProblemError('changed-meanwhile', message('problem.lotMeanwhile')),
  panel_reading__one_at_an_instant: exists('body.at', message('problem.readingOnce')),
  disposition_pkey: () => new ProblemError('wrong-state', message('problem.disposedAlready')),
}

/** The problem that a database error means to the caller, or undefined when it is ours to look into. */
export function constraintProblem(error: unknown): ProblemError | undefined {
  const state = sqlState(error)
  if (!state) return undefined
  const constraint = violatedConstraint(error)
  const known = constraint ? BY_CONSTRAINT[constraint] : undefined
  if (known) return known()

  switch (state) {
    case '23P01':
      return BY_CONSTRAINT['booking__place_is_free']?.()
    case '23503':
      return new ProblemError(
        'invalid-request',
        message('problem.namedNowhere', { constraint: constraint ?? 'reference' }),
      )
    case '55P03':
    case '40001':
    case '40P01':
      return new ProblemError('changed-meanwhile', message('problem.beingChanged'))
    default:
      return undefined
  }
}
