import { ProblemError } from '../problems/problem-error.ts'
import { sqlState, violatedConstraint } from './sql-state.ts'

type Make = () => ProblemError

const exists =
  (field: string, message: string): Make =>
  () =>
    new ProblemError('already-exists', message, [{ code: 'already-exists', field, message }])

/** What a person is told when the database itself refuses: one line a constraint. */
const BY_CONSTRAINT: Record<string, Make> = {
  booking__place_is_free: () =>
    new ProblemError('booking-taken', 'Another booking takes this place in that period', [
      {
        code: 'booking-taken',
        field: 'body.startsAt',
        message: 'Another booking takes this place in that period',
        fix: 'Choose another time or another place',
      },
    ]),
  booking__within_capacity: () =>
    new ProblemError('booking-taken', 'There are not that many free in that period', [
      {
        code: 'over-capacity',
        field: 'body.units',
        message: 'There are not that many free in that period',
        fix: 'Book fewer, or at another time',
      },
    ]),
  stock_on_hand__never_negative: () => new ProblemError('stock-short', 'There is not that much on hand'),
  cartridge__never_negative: () => new ProblemError('stock-short', 'The cartridge does not hold that much'),
  reservation__within_content: () =>
    new ProblemError('stock-short', 'Somebody else was kept the rest of that cartridge at the same moment'),
  shipment_line__one_way_at_a_time: () =>
    new ProblemError('wrong-state', 'The cartridge is on its way already'),
  bond__one_at_a_time: () => new ProblemError('wrong-state', 'A bond is already running on this joint'),
  bond__attempt_once: () =>
    new ProblemError('changed-meanwhile', 'Somebody started a bond on this joint at the same moment'),
  shop__name_once: exists('body.name', 'There is a shop of that name already'),
  person__email_once: exists('body.email', 'Somebody has that e-mail address already'),
  membership__once: exists('body.memberships', 'A role is given twice'),
  supplier__name_once: exists('body.name', 'There is a supplier of that name already'),
  product_supply_pkey: exists('params.productId', 'It is said already where this product is ordered'),
  product__name_once: exists('body.name', 'There is a product of that name already'),
  product_sheet__revision_once: exists('body.revision', 'That revision of the data sheet is on file already'),
  webhook__name_once: exists('body.name', 'There is a webhook of that name already'),
  product_gtin_pkey: exists('body.gtin', 'That GTIN stands for a product already'),
  dispenser__name_once: exists('body.name', 'The shop has a dispenser of that name already'),
  storage_location__name_once: exists('body.name', 'The shop has a storage location of that name already'),
  resource__name_once: exists('body.name', 'The shop has one of that name already'),
  sensor__name_once: exists('body.name', 'The shop has a thermometer of that name already'),
  instrument__name_once: exists('body.name', 'The shop has an instrument of that name already'),
  repair_order__number_once: exists('body.number', 'The shop has a repair order of that number already'),
  work_shift__no_overlap: () =>
    new ProblemError('changed-meanwhile', 'Somebody set the same hours at the same moment: try again'),
  joint__name_once: exists('body.name', 'The repair order has a joint of that name already'),
  lot__number_once: () =>
    new ProblemError('changed-meanwhile', 'Somebody received that lot at the same moment: send it again'),
  panel_reading__one_at_an_instant: exists(
    'body.at',
    'There is a reading of that bond at that instant already',
  ),
  disposition_pkey: () => new ProblemError('wrong-state', 'The incident is disposed of already'),
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
        `Something named in the request does not exist here (${constraint ?? 'reference'})`,
      )
    case '55P03':
    case '40001':
    case '40P01':
      return new ProblemError('changed-meanwhile', 'Somebody else is changing the same thing: try again')
    default:
      return undefined
  }
}
