import { ROUTES } from '../../api/contracts.ts'
import { ActionIcon, TextInput } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useMatchRoute, useNavigate } from '@tanstack/react-router'
import { ScanLine } from 'lucide-react'
import { useRef, useState, type KeyboardEvent } from 'react'
import { useAction } from '../../api/use-action.ts'
import { useOneShop } from '../../lib/shop-scope.ts'
import { isSeparatorKey, SEPARATOR } from './separators.ts'
import styles from './scan.module.css'
import { lazily } from '../../ui/lazily.tsx'
import { Wedge } from './wedge.tsx'
import { t } from '../../lib/reader.ts'

const parts = () => import('./scan-parts.tsx')
const NotFoundDialog = lazily(async () => (await parts()).NotFoundDialog)
const CameraDialog = lazily(async () => (await parts()).CameraDialog)

/** In the head of every screen: a scanned label opens what it belongs to; in the form of a bond it fills the form. */
export function FindByScan() {
  const { shop } = useOneShop()
  const navigate = useNavigate()
  const [text, setText] = useState('')
  const [isCamera, camera] = useDisclosure()
  const scanned = useRef('')
  const isBonding = useMatchRoute()({ to: '/jobs/$repairOrderId/joints/$jointId/bond' }) !== false
  const read = useAction(ROUTES.readScan, {
    topics: [],
    onDone: (answer) => {
      setText('')
      if (answer.kind === 'cartridge' && isBonding) {
        // In the form of a bond a scan chooses the cartridge.
        void navigate({
          to: '.',
          // Counted: the same label scanned once more is another scan.
          search: (old) => ({ ...old, cartridge: answer.cartridge.id, times: (old.times ?? 0) + 1 }),
          replace: true,
        })
      } else if (answer.kind === 'cartridge') {
        void navigate({ to: '/stock/cartridges/$cartridgeId', params: { cartridgeId: answer.cartridge.id } })
      } else if (answer.lot !== null && answer.questions.every(({ code }) => code !== 'otherExpiry')) {
        void navigate({ to: '/stock/lots/$lotId', params: { lotId: answer.lot.id } })
      } else {
        void navigate({ to: '/stock/receive', search: (old) => ({ ...old, scan: scanned.current }) })
      }
    },
  })
  if (shop === undefined) return null
  const send = (value: string) => {
    if (value.trim() === '') return
    // A form on the screen may know it: `scan-takers.ts`.
    const isUnknown = document.dispatchEvent(new CustomEvent('scan', { detail: value, cancelable: true }))
    if (!isUnknown) return setText('')
    scanned.current = value
    read.mutate({ params: { shopId: shop.id }, body: { text: value } })
  }
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (isSeparatorKey(event)) {
      event.preventDefault()
      setText((typed) => typed + SEPARATOR)
    } else if (event.key === 'Enter') send(event.currentTarget.value)
  }
  return (
    <>
      <Wedge onScan={send} />
      <TextInput
        className={styles['short']}
        aria-label={t('features.scanOrTypeALabel')}
        placeholder={t('features.scanOrTypeALabel')}
        size="sm"
        autoComplete="off"
        spellCheck={false}
        leftSection={<ScanLine size={16} aria-hidden />}
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
        onKeyDown={onKeyDown}
      />
      <ActionIcon
        size="lg"
        variant="default"
        hiddenFrom="sm"
        aria-label={t('features.scanALabelWithTheCamera')}
        onClick={camera.open}
      >
        <ScanLine size={18} aria-hidden />
      </ActionIcon>
      {read.error !== null && <NotFoundDialog error={read.error} onClose={() => read.reset()} />}
      {isCamera && (
        <CameraDialog
          onClose={camera.close}
          onScan={(value) => {
            camera.close()
            send(value)
          }}
        />
      )}
    </>
  )
}
