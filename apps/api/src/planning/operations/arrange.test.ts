import fc from 'fast-check'
import { inEnglish } from '../../foundation/words/words.ts'
import { expect, it } from 'vitest'
import { arrange } from './arrange.ts'
import { precedences, type Placed } from './expand.ts'

const operation = (id: string, kind: Placed['kind'], jointId: string | null = null, hasBegun = false) => ({
  id,
  kind,
  jointId,
  hasBegun,
  name: id,
})
const door = [
  operation('prepare-a', 'prepare', 'a'),
  operation('bond-a', 'bondAndClamp', 'a'),
  operation('cure-a', 'cure', 'a'),
  operation('dress-a', 'unclampAndDress', 'a'),
  operation('prepare-b', 'prepare', 'b'),
  operation('seal', 'sealAndPrime'),
  operation('paint', 'paint'),
]
const begun = (...ids: string[]) => door.map((each) => ({ ...each, hasBegun: ids.includes(each.id) }))
const ids = (found: ReturnType<typeof arrange>) =>
  found.kind === 'ordered' ? found.items.map(({ id }) => id) : inEnglish(found.message)
const extra = operation('weld-a', 'weld', 'a')

it('puts an operation after another one of its joint, or before them all', () => {
  const after = (id: string | null) => {
    const found = ids(arrange(door, [extra], id))
    return typeof found === 'string' ? found : found.slice(0, 5)
  }
  expect(after('prepare-a')).toEqual(['prepare-a', 'weld-a', 'bond-a', 'cure-a', 'dress-a'])
  expect(after('cure-a')).toEqual(['prepare-a', 'bond-a', 'cure-a', 'weld-a', 'dress-a'])
  expect(after('dress-a')).toEqual(['prepare-a', 'bond-a', 'cure-a', 'dress-a', 'weld-a'])
  expect(after(null)).toEqual(['weld-a', 'prepare-a', 'bond-a', 'cure-a', 'dress-a'])
  expect(after('bond-a')).toContain('nothing comes between')
  expect(after('prepare-b')).toContain('none of the operations of the same joint')
  expect(after('seal')).toContain('none of the operations of the same joint')
})

it('puts a joint without operations behind the others, and before the vehicle', () => {
  expect(ids(arrange(door, [operation('weld-c', 'weld', 'c')], null))).toEqual([
    'prepare-a',
    'bond-a',
    'cure-a',
    'dress-a',
    'prepare-b',
    'weld-c',
    'seal',
    'paint',
  ])
})

it('leaves the vehicle in the order of its kinds', () => {
  const bake = operation('bake', 'bake')
  expect(ids(arrange(door, [bake], null)).slice(-3)).toEqual(['seal', 'paint', 'bake'])
  expect(ids(arrange(door, [bake], 'seal'))).toContain('none of the same kind')
  const coat = operation('second coat', 'paint')
  expect(ids(arrange(door, [coat], null)).slice(-3)).toEqual(['seal', 'second coat', 'paint'])
  expect(ids(arrange(door, [coat], 'paint')).slice(-3)).toEqual(['seal', 'paint', 'second coat'])
})

it('puts nothing before what has begun and would wait for it', () => {
  expect(ids(arrange(begun('bond-a', 'cure-a'), [extra], 'prepare-a'))).toContain('bond-a would wait')
  expect(ids(arrange(begun('bond-a', 'cure-a'), [extra], 'cure-a'))).toContain('weld-a')
  expect(ids(arrange(begun('paint'), [extra], 'dress-a'))).toContain('paint would wait')
  expect(ids(arrange(begun('paint'), [operation('primer', 'sealAndPrime')], null))).toContain('paint would')
  expect(ids(arrange(begun('seal'), [operation('coat', 'paint')], null))).toContain('coat')
  // Joints go side by side: what has begun on another one waits for nothing here.
  expect(ids(arrange(begun('prepare-b'), [extra], null))).toContain('weld-a')
})

it('keeps every cure with its bond wherever anything is put', () => {
  const anywhere = fc.option(fc.constantFrom(...door.map(({ id }) => id)), { nil: null })
  fc.assert(
    fc.property(fc.integer({ min: 0, max: door.length - 1 }), anywhere, (at, afterId) => {
      const size = door[at]!.kind === 'bondAndClamp' ? 2 : 1
      fc.pre(door[at]!.kind !== 'cure')
      const unit = door.slice(at, at + size) as [(typeof door)[number]]
      const found = arrange(door.toSpliced(at, size), unit, afterId)
      if (found.kind === 'refused') return
      expect(found.items.map(({ id }) => id).toSorted()).toEqual(door.map(({ id }) => id).toSorted())
      expect(precedences(found.items)).toContainEqual({ before: 'bond-a', after: 'cure-a', noWait: true })
    }),
  )
})
