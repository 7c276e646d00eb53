import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/plan-figures.ts'

export const patterns: Translation<typeof english> = {
  'plan-figures.howThePlansWent': 'How the plans went',
  'plan-figures.backToThePlan': 'Back to the plan',
  'plan-figures.csv': 'CSV',
  'plan-figures.from': 'Desde',
  'plan-figures.untilTheEndOf': 'Until the end of',
  'plan-figures.figures': 'figures',
  'plan-figures.figuresOfThePlans': 'Figures of the plans',
  'plan-figures.onTimeRepairOrdersWithOperations':
    'On time: repair orders with operations, promised for the period, all of it through by then. Use: share of the opening hours that are booked. Moved: of the operations that were published for the period, those moved afterwards.',
  'plan-figures.shop': 'Taller',
  'plan-figures.onTime': 'On time',
  'plan-figures.nonePromised': 'none promised',
  'plan-figures.bayUse': 'Bay use',
  'plan-figures.ovenUse': 'Oven use',
  'plan-figures.cureMean': 'Cure, mean',
  'plan-figures.noneReleased': 'none released',
  'plan-figures.releasedEarly': 'Released early',
  'plan-figures.movedAfterPublishing': 'Moved after publishing',
  'plan-figures.nonePublished': 'none published',
}
