import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fitName, type NameSpace } from './label-name.ts'

/** Every letter half as wide as it is high. */
const measure = (text: string, size: number) => text.length * size * 0.5
const space: NameSpace = { width: 60, sizes: [10, 8], maxLines: 2 }

describe("a product's name on a label", () => {
  it('stays whole where it fits, in the largest type', () => {
    expect(fitName('Snark 90', [], space, measure)).toEqual({ size: 10, lines: ['Snark 90'] })
    expect(fitName('Snark Panel 90', [], space, measure)).toEqual({ size: 10, lines: ['Snark Panel', '90'] })
    expect(fitName('Snark Structure Panel', [], space, measure)).toEqual({
      size: 8,
      lines: ['Snark Structure', 'Panel'],
    })
  })

  it('keeps the end that tells a family apart', () => {
    const name = 'Snark Structural Panel Adhesive Slow Winter 90'
    const { lines } = fitName(name, ['Snark Structural Panel Adhesive Slow Winter 60'], space, measure)
    expect(lines.join(' ')).toMatch(/^Snark.*…/)
    expect(lines.at(-1)).toMatch(/90$/)
  })

  it('prints small rather than leave out what tells it apart', () => {
    const name = 'Snark Structural Panel 90 Adhesive for Bonding'
    const { lines, size } = fitName(name, ['Snark Structural Panel 60 Adhesive for Bonding'], space, measure)
    expect(lines.join(' ')).toContain('90')
    expect(size).toBeLessThan(8)
  })

  it('never reads like another one, never runs out of its space', () => {
    const word = fc.constantFrom('Snark', 'Panel', '90', '60', 'Slow', 'Structural', 'Epoxy')
    const names = fc.array(word, { minLength: 1, maxLength: 12 }).map((words) => words.join(' '))
    fc.assert(
      fc.property(names, fc.array(names, { maxLength: 6 }), (name, others) => {
        const { size, lines } = fitName(name, others, space, measure)
        expect(lines.length).toBeLessThanOrEqual(space.maxLines)
        for (const line of lines) expect(measure(line, size)).toBeLessThanOrEqual(space.width)
        const read = lines.join('').replaceAll(' ', '')
        if (!read.includes('…')) expect(read).toBe(name.replaceAll(' ', ''))
        const [head = '', tail = ''] = read.split('…')
        for (const other of read.includes('…') ? others.filter((each) => each !== name) : []) {
          const bare = other.replaceAll(' ', '')
          expect(bare.startsWith(head) && bare.endsWith(tail)).toBe(false)
        }
      }),
    )
  })

  it('names a space that is none', () => {
    expect(() => fitName('Snark', [], { ...space, sizes: [] }, measure)).toThrow(RangeError)
  })
})
