import { openDB, type DBSchema } from 'idb'
import type { Act } from './act.ts'
import type { ActStore } from './store.ts'

interface Schema extends DBSchema {
  acts: { key: number; value: Act }
  lease: { key: string; value: { readonly holder: string; readonly untilMs: number } }
}

/** On the device: outlasts a reload, a tab that is killed, and a browser that is. */
export async function openIdbStore(name = 'clampclock'): Promise<ActStore> {
  const database = await openDB<Schema>(name, 1, {
    upgrade: (made) => {
      made.createObjectStore('acts', { keyPath: 'seq', autoIncrement: true })
      made.createObjectStore('lease')
    },
    // A newer build in another tab has another version of it, and waits for this one to let go.
    blocking: (_current, _blocked, event) => (event.target as IDBDatabase).close(),
  })
  return {
    all: () => database.getAll('acts'),
    change: async (by) => {
      // On the disk before anybody is told that it is kept.
      const tx = database.transaction('acts', 'readwrite', { durability: 'strict' })
      const { add = [], put = [], remove = [] } = by(await tx.store.getAll())
      await Promise.all([
        // The store itself gives it the number that makes it an act.
        ...add.map((act) => tx.store.add(act as Act)),
        ...put.map((act) => tx.store.put(act)),
        ...remove.map(({ seq }) => tx.store.delete(seq)),
        tx.done,
      ])
    },
    lease: async (holder, nowMs, untilMs) => {
      const tx = database.transaction('lease', 'readwrite')
      const held = await tx.store.get('sender')
      const isFree = held === undefined || held.holder === holder || held.untilMs < nowMs
      if (isFree) await tx.store.put({ holder, untilMs }, 'sender')
      await tx.done
      return isFree
    },
  }
}
