import { expect, it } from 'vitest'
import { ProblemError } from '../problems/problem-error.ts'
import { HashQueue } from './hash-queue.ts'

/** Work that ends when it is told to, and what of it has begun. */
function works() {
  const begun: number[] = []
  const ends: (() => void)[] = []
  const work = (number: number) => () =>
    new Promise<number>((resolve) => {
      begun.push(number)
      ends[number] = () => resolve(number)
    })
  return { begun, end: (number: number) => ends[number]!(), work }
}

it('works so many at once, in the order in which they came, and turns away who finds the line full', async () => {
  const queue = new HashQueue(2, 2)
  const { begun, end, work } = works()
  const results = [0, 1, 2, 3].map((number) => queue.run(work(number)))
  await expect(queue.run(work(4))).rejects.toMatchObject({ code: 'overloaded', retryAfterSeconds: 5 })
  expect(begun).toEqual([0, 1])
  end(1)
  await results[1]
  expect(begun).toEqual([0, 1, 2])
  const late = queue.run(work(5))
  await expect(queue.run(work(6))).rejects.toThrow(ProblemError)
  end(0)
  end(2)
  await Promise.all([results[0], results[2]])
  end(3)
  end(5)
  expect(await Promise.all([...results, late])).toEqual([0, 1, 2, 3, 5])
  expect(begun).toEqual([0, 1, 2, 3, 5])
})

it('gives the place back when work fails', async () => {
  const queue = new HashQueue(1, 0)
  await expect(queue.run(() => Promise.reject(new Error('no memory')))).rejects.toThrow('no memory')
  expect(await queue.run(() => Promise.resolve('worked'))).toBe('worked')
})
