import type { RepairTemplate, TemplateStep } from '@clampclock/contracts'

/**
 * What a shop starts from. The minutes are common practice, no source: a shop puts in its own. Whether anything is
 * welded or riveted beside the bond, the vehicle maker's procedure says.
 */
export const BUILT_IN_TEMPLATES: readonly Pick<RepairTemplate, 'key' | 'name' | 'steps'>[] = [
  {
    key: 'doorSkin',
    name: 'Door skin',
    steps: [
      ...joint({ prepare: 90, dryFit: 30, bond: 40, dress: 40, clampSets: 1 }),
      ...finish({ seal: 60, refit: 75 }),
    ],
  },
  {
    key: 'quarterPanel',
    name: 'Quarter panel',
    steps: [
      ...joint({ prepare: 180, dryFit: 60, bond: 60, dress: 60, clampSets: 1, skill: 'structural' }),
      step('weld', 'Weld the flanges that the procedure asks for', 90, { skill: 'welding' }),
      ...finish({ seal: 90, refit: 120 }),
    ],
  },
  {
    key: 'rocker',
    name: 'Rocker',
    steps: [
      ...joint({
        prepare: 210,
        dryFit: 75,
        bond: 60,
        dress: 60,
        clampSets: 1,
        skill: 'structural',
        attributes: ['frameBench'],
      }),
      step('weld', 'Weld or rivet where the procedure asks for it', 120, {
        skill: 'welding',
        attributes: ['frameBench'],
      }),
      ...finish({ seal: 90, refit: 60 }),
    ],
  },
  {
    key: 'roof',
    name: 'Roof skin',
    steps: [
      ...joint({ prepare: 240, dryFit: 75, bond: 75, dress: 60, clampSets: 1, technicians: 2 }),
      ...finish({ seal: 120, refit: 150 }),
    ],
  },
  {
    key: 'aluminiumPanel',
    name: 'Aluminium panel',
    steps: [
      ...joint({
        prepare: 120,
        dryFit: 45,
        bond: 45,
        dress: 45,
        clampSets: 1,
        skill: 'aluminium',
        attributes: ['dustFree'],
      }),
      step('weld', 'Rivet where the procedure asks for it', 45, {
        skill: 'aluminium',
        attributes: ['dustFree'],
      }),
      ...finish({ seal: 60, refit: 90 }),
    ],
  },
]

interface JointWork {
  readonly prepare: number
  readonly dryFit: number
  readonly bond: number
  readonly dress: number
  readonly clampSets: number
  readonly technicians?: number
  readonly skill?: TemplateStep['skill']
  readonly attributes?: TemplateStep['attributes']
}

function joint({
  prepare,
  dryFit,
  bond,
  dress,
  clampSets,
  technicians = 1,
  skill = 'body',
  attributes = [],
}: JointWork): TemplateStep[] {
  return [
    step('prepare', 'Prepare: to bright metal, cleaned', prepare, { skill, attributes }),
    step('dryFit', 'Dry fit', dryFit, { skill, attributes, technicians }),
    step('bondAndClamp', 'Bond and clamp', bond, { skill, attributes, technicians, clampSets }),
    { ...step('cure', 'Cure', null, { attributes }), technicians: 0 },
    step('unclampAndDress', 'Unclamp and dress', dress, { skill, attributes }),
  ]
}

function finish({ seal, refit }: { readonly seal: number; readonly refit: number }): TemplateStep[] {
  return [
    step('sealAndPrime', 'Seal and prepare for refinish', seal, { skill: 'body' }),
    step('paint', 'Paint', 90, { skill: 'paint', place: 'oven' }),
    { ...step('bake', 'Bake', 75, { place: 'oven', highestMetalC: 60 }), technicians: 0 },
    { ...step('cool', 'Cool', 45, {}), technicians: 0 },
    step('refit', 'Refit', refit, { skill: 'fitting' }),
  ]
}

function step(
  kind: TemplateStep['kind'],
  name: string,
  workMinutes: number | null,
  more: Partial<TemplateStep>,
): TemplateStep {
  return {
    kind,
    name,
    workMinutes,
    place: 'bay',
    technicians: 1,
    skill: null,
    clampSets: 0,
    attributes: [],
    highestMetalC: null,
    bakeProgram: null,
    ...more,
  }
}
