import { ROUTES } from '../../../api/contracts.ts'
import { Button, Group, Modal, Stack, TextInput } from '@mantine/core'
import { useState, type SubmitEvent } from 'react'
import type { Cartridge } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { fromWallClock } from '../../../lib/instants.ts'
import { useShop, zoneOf } from '../../../lib/shop-scope.ts'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly cartridge: Cartridge
  readonly onClose: () => void
}

/** Opening starts the open life; it may have happened earlier today. */
export function OpenDialog({ cartridge, onClose }: Props) {
  const shop = useShop(cartridge.shopId)
  const [openedAt, setOpenedAt] = useState('')
  const [reason, setReason] = useState('')
  const [fault, setFault] = useState<string>()
  const open = useAction(ROUTES.openCartridge, { topics: ['stock', 'alerts'], onDone: onClose })
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    const at = openedAt === '' ? undefined : fromWallClock(openedAt, zoneOf(shop))
    if (at !== undefined && 'fault' in at) {
      setFault(at.fault)
      return
    }
    setFault(undefined)
    open.mutate({
      params: { cartridgeId: cartridge.id },
      body: {
        ...(at === undefined ? {} : { openedAt: at.iso }),
        ...(reason === '' ? {} : { reason }),
      },
    })
  }
  return (
    <Modal opened onClose={onClose} title={t('stock.open2', { code: cartridge.code })}>
      <form onSubmit={submit}>
        <Stack gap="md">
          <p style={{ margin: 0 }}>{t('stock.itsOpenLifeStartsWhenItIsOpened')}</p>
          <TextInput
            label={t('stock.openedAt')}
            description={t('stock.nowWhenLeftEmptyTheClockOf', { name: shop?.name ?? t('stock.theShop') })}
            type="datetime-local"
            value={openedAt}
            error={fault}
            onChange={(event) => setOpenedAt(event.currentTarget.value)}
          />
          <TextInput
            label={t('stock.forWhat')}
            value={reason}
            onChange={(event) => setReason(event.currentTarget.value)}
          />
          <ProblemPanel error={open.error} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              {t('stock.back')}
            </Button>
            <Button type="submit" loading={open.isPending}>
              {t('stock.openIt')}
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
