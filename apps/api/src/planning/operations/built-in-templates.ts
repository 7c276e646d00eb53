import { message, type Message } from '@clampclock/messages'
import type { RepairTemplate, TemplateStep } from '@clampclock/contracts'

/**
 * What a shop starts from. The minutes are common practice, no source: a shop puts in its own. Whether anything is
 * welded or riveted beside the bond, the vehicle maker's procedure says.
 */
export const BUILT_IN_TEMPLATES: readonly Pick<RepairTemplate, 'key' | 'name' | 'steps'>[] = [
  {
    key: 'doorSkin',
    name: message('template.doorSkin'),
    steps: [
      ...joint({ prepare: 90, dryFit: 30, bond: 40, dress: 40, clampSets: 1 }),
      ...finish({ seal: 60, refit: 75 }),
    ],
  },
  {
    key: 'quarterPanel',
    name: message('template.quarterPanel'),
    steps: [
      ...joint({ prepare: 180, dryFit: 60, bond: 60, dress: 60, clampSets: 1, skill: 'structural' }),
      step('weld', message('template.weldFlanges'), 90, { skill: 'welding' }),
      ...finish({ seal: 90, refit: 120 }),
    ],
  },
  {
    key: 'rocker',
    name: message('template.rocker'),
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
      step('weld', message('template.weldOrRivet'), 120, {
        skill: 'welding',
        attributes: ['frameBench'],
      }),
      ...finish({ seal: 90, refit: 60 }),
    ],
  },
  {
    key: 'roof',
    name: message('template.roof'),
    steps: [
      ...joint({ prepare: 240, dryFit: 75, bond: 75, dress: 60, clampSets: 1, technicians: 2 }),
      ...finish({ seal: 120, refit: 150 }),
    ],
  },
  {
    key: 'aluminiumPanel',
    name: message('template.aluminiumPanel'),
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
      step('weld', message('template.rivet'), 45, {
        skill: 'aluminium',
        attributes: ['dustFree'],
      }),
      ...finish({ seal: 60, refit: 90 }),
    ],
  },
]

type ToldStep = RepairTemplate['steps'][number]

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
}: JointWork): ToldStep[] {
  return [
    step('prepare', message('template.prepare'), prepare, { skill, attributes }),
    step('dryFit', message('template.dryFit'), dryFit, { skill, attributes, technicians }),
    step('bondAndClamp', message('template.bondAndClamp'), bond, {
      skill,
      attributes,
      technicians,
      clampSets,
    }),
    { ...step('cure', message('template.cure'), null, { attributes }), technicians: 0 },
    step('unclampAndDress', message('template.unclampAndDress'), dress, { skill, attributes }),
  ]
}

function finish({ seal, refit }: { readonly seal: number; readonly refit: number }): ToldStep[] {
  return [
    step('sealAndPrime', message('template.sealAndPrime'), seal, { skill: 'body' }),
    step('paint', message('template.paint'), 90, { skill: 'paint', place: 'oven' }),
    { ...step('bake', message('template.bake'), 75, { place: 'oven', highestMetalC: 60 }), technicians: 0 },
    { ...step('cool', message('template.cool'), 45, {}), technicians: 0 },
    step('refit', message('template.refit'), refit, { skill: 'fitting' }),
  ]
}

function step(
  kind: TemplateStep['kind'],
  name: Message,
  workMinutes: number | null,
  more: Partial<ToldStep>,
): ToldStep {
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
