import { ROUTES } from '../../../api/contracts.ts'
import { Radio, Stack } from '@mantine/core'
import { useState } from 'react'
import type { Cartridge } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly cartridge: Cartridge
  readonly onClose: () => void
}

type Decision = 'use' | 'discard'

/** What becomes of a cartridge that lay outside its storage range; nothing is preselected. */
export function QuarantineDialog({ cartridge, onClose }: Props) {
  const [decision, setDecision] = useState<Decision>()
  const decide = useAction(ROUTES.decideQuarantine, { topics: ['stock', 'alerts'], onDone: onClose })
  const params = { cartridgeId: cartridge.id }
  return (
    <ReasonDialog
      opened
      title={t('stock.decideAbout', { code: cartridge.code })}
      onClose={onClose}
      reasonLabel={t('stock.whyAndWhoSaysSo')}
      confirmLabel={t('stock.decide')}
      isDanger={decision === 'discard'}
      isPending={decide.isPending}
      error={decide.error}
      onConfirm={(reason) => {
        if (decision !== undefined) decide.mutate({ params, body: { decision, reason } })
      }}
    >
      <p style={{ margin: 0 }}>{cartridge.quarantine?.reason}</p>
      <p style={{ margin: 0 }}>{t('stock.askTheProductsDataSheetOrItsMaker')}</p>
      <Radio.Group
        label={t('stock.decision')}
        required
        value={decision ?? ''}
        onChange={(value) => setDecision(value as Decision)}
      >
        <Stack gap="xs" mt="xs">
          <Radio value="discard" label={t('stock.discardIt')} required />
          <Radio value="use" label={t('stock.releaseItForUse')} required />
        </Stack>
      </Radio.Group>
    </ReasonDialog>
  )
}
