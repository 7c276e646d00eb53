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

  it.each([{ sizes: [] }, { width: 0 }, { width: -1 }, { width: Number.NaN }, { maxLines: 0 }])(
    'names a space that is none: %o',
    (part) => {
      expect(() => fitName('Snark', [], { ...space, ...part }, measure)).toThrow(
        'a name needs width, a line and a size',
      )
    },
  )

  it('fills a line to its end, and one line where there is no more', () => {
    // Twelve letters of size 10 are exactly 60 wide.
    expect(fitName('Snark Panels', [], { ...space, maxLines: 1 }, measure)).toEqual({
      size: 10,
      lines: ['Snark Panels'],
    })
    expect(fitName('Snark Panel X', [], { ...space, sizes: [10], maxLines: 2 }, measure).lines).toEqual([
      'Snark Panel',
      'X',
    ])
  })

  it('breaks a word that is wider than a line between letters, each line filled', () => {
    const one = { width: 20, sizes: [10], maxLines: 3 }
    expect(fitName('Snarkpanel', [], one, measure).lines).toEqual(['Snar', 'kpan', 'el'])
    expect(fitName('X Snarkpan', [], one, measure).lines).toEqual(['X', 'Snar', 'kpan'])
    expect(fitName('Snarkpan X', [], one, measure).lines).toEqual(['Snar', 'kpan', 'X'])
  })

  it('has no empty line and no blank twice, however the name was typed', () => {
    expect(fitName('  Snark   90 ', [], space, measure)).toEqual({ size: 10, lines: ['Snark 90'] })
    expect(fitName('Snark\tPanel\n90', [], space, measure).lines).toEqual(['Snark Panel', '90'])
  })

  it('leaves out no more of the middle than it must, in the smallest size that was asked for', () => {
    const narrow = { width: 40, sizes: [10, 8], maxLines: 1 }
    // Ten letters of size 8 are exactly 40 wide: nine of the name and the mark.
    expect(fitName('Snark Structural Panel', [], narrow, measure)).toEqual({ size: 8, lines: ['Snar…Panel'] })
    expect(fitName('Snark Structural Panel', ['Snark Structural Panel'], narrow, measure).lines).toEqual([
      'Snar…Panel',
    ])
  })

  it('leaves more out where only that tells it from one other of several', () => {
    const narrow = { width: 40, sizes: [8], maxLines: 1 }
    const others = ['Epoxy', 'Snarl Structural Panel']
    // 'Snar…Panel' is how the other one would read too, and so would anything shorter: it is printed whole, and small.
    const { size, lines } = fitName('Snark Structural Panel', others, narrow, measure)
    expect(lines).toEqual(['Snark Structural Panel'])
    expect(size).toBeLessThan(8)
    expect(measure(lines[0]!, size)).toBeLessThanOrEqual(40)
    expect(measure(lines[0]!, size / 0.9)).toBeGreaterThan(40)
  })
})
