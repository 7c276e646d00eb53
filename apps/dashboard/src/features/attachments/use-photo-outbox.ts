import { useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { call, happenedNow } from '../../api/client.ts'
import { ROUTES } from '../../api/contracts.ts'
import { invalidateTopics } from '../../api/live.ts'
import type { Outbox, Outgoings } from '../../api/outbox.ts'
import { useOutbox } from '../../api/use-outbox.ts'
import { scaledPhoto } from '../../lib/scaled-photo.ts'

export interface Photo {
  readonly jointId: string | null
  readonly bondId: string | null
  readonly caption: string
  readonly takenAt: string | null
  readonly base64: string
}

export interface PhotoOutbox extends Outbox<Photo>, Outgoings<Photo> {
  /** Scales them down, one after the other, and has them sent. */
  readonly take: (files: readonly File[], of: Pick<Photo, 'jointId' | 'bondId' | 'caption'>) => Promise<void>
  /** How many are being scaled down. */
  readonly preparing: number
  /** Names of files that this browser cannot read as a picture. */
  readonly unreadable: readonly string[]
}

/** Photos of one vehicle on their way: each is kept until the service has answered, and is added once however often it is sent. */
export function usePhotoOutbox(repairOrderId: string): PhotoOutbox {
  const client = useQueryClient()
  const outbox = useOutbox<Photo>(`photos.${repairOrderId}`, async ({ id, payload }, signal) => {
    const input = { params: { repairOrderId }, body: payload, idempotencyKey: id, signal }
    await call(ROUTES.addPhoto, input)
    await invalidateTopics(client, new Map([['attachments', null]]))
  })
  const [preparing, setPreparing] = useState(0)
  const [unreadable, setUnreadable] = useState<readonly string[]>([])
  const isUnsent = preparing > 0 || outbox.items.some(({ state }) => state !== 'refused')
  useEffect(() => {
    if (!isUnsent) return
    const ask = (event: BeforeUnloadEvent) => event.preventDefault()
    addEventListener('beforeunload', ask)
    return () => removeEventListener('beforeunload', ask)
  }, [isUnsent])
  return {
    ...outbox,
    preparing,
    unreadable,
    take: async (files, of) => {
      if (files.length === 0) return
      setUnreadable([])
      setPreparing((count) => count + files.length)
      for (const file of files) {
        try {
          const { base64 } = await scaledPhoto(file)
          outbox.add({ ...of, takenAt: takenAt(file), base64 })
        } catch {
          setUnreadable((names) => [...names, file.name])
        }
        setPreparing((count) => count - 1)
      }
    },
  }
}

/** When the device says that it wrote the file: a photo from its camera was taken then. Never ahead of the service's clock. */
function takenAt({ lastModified }: File): string | null {
  if (!(lastModified > 0)) return null
  const [at, now] = [new Date(lastModified).toISOString(), happenedNow()]
  return at < now ? at : now
}
