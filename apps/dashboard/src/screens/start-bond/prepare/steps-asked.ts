import type { ROUTES } from '@clampclock/contracts'
import type { MessageKey } from '@clampclock/messages'
import type { InputOf } from '../../../api/client.ts'
import type { Joint, Product } from '../../../api/types.ts'
import type { DrawingName } from '../../../features/bonds/drawings/drawing.tsx'

type Application = InputOf<typeof ROUTES.startBond>['body']
export type PreparationStep = NonNullable<Application['preparation']>[number]

type StepKey = Extract<MessageKey, `start-bond.prepare.${string}`>

export interface AskedStep {
  readonly code: PreparationStep
  readonly title: StepKey
  readonly why: StepKey
  readonly drawing: DrawingName
  /** The product on file asks for it; else it is common practice, no source. */
  readonly isOnFile: boolean
}

type Material = Joint['panelMaterial']

const FIBRE: ReadonlySet<Material> = new Set(['glassFibre', 'carbonFibre'])
/** What may carry zinc. */
const COATED: ReadonlySet<Material> = new Set(['mildSteel', 'highStrengthSteel'])

/**
 * What this product and this joint ask for, in the order of the work. Where nothing is known of the product, what asks the
 * most: bare metal.
 */
export function stepsAsked(
  material: Material,
  product: Pick<Product, 'toleratesPrimer'> | undefined,
): readonly AskedStep[] {
  const isFibre = FIBRE.has(material)
  return [
    surfaceStep(material, product),
    {
      code: 'solventWiped',
      title: 'start-bond.prepare.wipe',
      why: 'start-bond.prepare.wipeWhy',
      drawing: 'wipe',
      isOnFile: false,
    },
    {
      code: 'flashedOff',
      title: 'start-bond.prepare.flashOff',
      why: 'start-bond.prepare.flashOffWhy',
      drawing: 'flashOff',
      isOnFile: false,
    },
    {
      code: 'dryFit',
      title: 'start-bond.prepare.dryFit',
      why: 'start-bond.prepare.dryFitWhy',
      drawing: 'dryFit',
      isOnFile: false,
    },
    {
      code: 'skimCoat',
      title: isFibre ? 'start-bond.prepare.skimCoatFibre' : 'start-bond.prepare.skimCoat',
      why: 'start-bond.prepare.skimCoatWhy',
      drawing: 'skimCoat',
      isOnFile: false,
    },
  ]
}

function surfaceStep(material: Material, product: Pick<Product, 'toleratesPrimer'> | undefined): AskedStep {
  if (FIBRE.has(material))
    return {
      code: 'abraded',
      title: 'start-bond.prepare.fibre',
      why: 'start-bond.prepare.fibreWhy',
      drawing: 'abrade',
      isOnFile: false,
    }
  const isOnFile = product !== undefined
  if (product?.toleratesPrimer === true)
    return {
      code: 'abraded',
      title: 'start-bond.prepare.coat',
      why: 'start-bond.prepare.coatWhy',
      drawing: 'abrade',
      isOnFile,
    }
  const code = 'bareMetal'
  return COATED.has(material)
    ? {
        code,
        title: 'start-bond.prepare.bareSteel',
        why: 'start-bond.prepare.bareSteelWhy',
        drawing: 'grind',
        isOnFile,
      }
    : {
        code,
        title: 'start-bond.prepare.bareMetal',
        why: 'start-bond.prepare.bareMetalWhy',
        drawing: 'grind',
        isOnFile,
      }
}

/**
 * What was ticked of the steps that are asked for now. A form that was kept may have others: what was done for a product as it
 * was on file then is no word about what it asks for today.
 */
export function stillAsked(
  ticked: readonly PreparationStep[],
  asked: readonly Pick<AskedStep, 'code'>[],
): readonly PreparationStep[] {
  return ticked.filter((step) => asked.some(({ code }) => code === step))
}

/** The three words that the gate asks for, from the steps that were ticked. */
export function preparedOf(steps: readonly PreparationStep[]): Application['prepared'] {
  const has = (code: PreparationStep) => steps.includes(code)
  return {
    surfaces: (has('bareMetal') || has('abraded')) && has('solventWiped') && has('flashedOff'),
    dryFit: has('dryFit'),
    skimCoat: has('skimCoat'),
  }
}
