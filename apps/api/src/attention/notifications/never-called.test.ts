import { describe, expect, it } from 'vitest'
import { isNeverCalled } from './never-called.ts'
import { poster } from './post.ts'

/** Each is refused before any connection: nothing of these is ever called. */
const OF_MACHINES = [
  '169.254.169.254',
  '[fe80::1]',
  '[fd00:ec2::254]',
  '100.100.100.200',
  '168.63.129.16',
  '192.0.0.192',
  '[::ffff:169.254.169.254]',
  '[::169.254.169.254]',
  '[::ffff:0:169.254.169.254]',
  '[64:ff9b::169.254.169.254]',
  '[2002:a9fe:a9fe::1]',
  // As other programs write 169.254.169.254.
  '2852039166',
  '0xa9fea9fe',
  '0251.0376.0251.0376',
]
const PRIVATE = [
  '127.0.0.1',
  '10.0.0.1',
  '172.16.0.1',
  '192.168.0.1',
  '100.64.0.1',
  '0.0.0.0',
  '[::1]',
  '[::]',
  '[fd00::1]',
  '[::ffff:10.0.0.1]',
  '[::127.0.0.1]',
  '[::10.0.0.1]',
  '[::ffff:0:10.0.0.1]',
  '[64:ff9b::10.0.0.1]',
  '[64:ff9b:1::10.0.0.1]',
  '[2002:0a00:0001::1]',
]
const call = (toPrivate: boolean, scheme: string, host: string) =>
  poster(toPrivate)(`${scheme}://${host}:9/hook`, {}, '{}', 2000)

describe.each(['http', 'https'])('a webhook over %s', (scheme) => {
  it.each(OF_MACHINES)('is not sent to %s, also where private addresses are allowed', async (host) => {
    for (const toPrivate of [true, false])
      await expect(call(toPrivate, scheme, host)).rejects.toThrow('no webhook goes there')
  })

  it.each(PRIVATE)('is not sent to %s unless that is allowed', async (host) => {
    await expect(call(false, scheme, host)).rejects.toThrow('WEBHOOK_PRIVATE_ADDRESSES=true')
  })
})

it('tells addresses of machines from others', () => {
  expect(isNeverCalled('169.254.0.1')).toBe(true)
  for (const other of ['127.0.0.1', '10.0.0.1', '169.253.255.255', '169.255.0.0', '::1', 'example.org'])
    expect(isNeverCalled(other), other).toBe(false)
})
