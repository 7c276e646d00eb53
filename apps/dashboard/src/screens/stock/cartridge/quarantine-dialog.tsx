import { ROUTES } from '../../../api/contracts.ts'
import { Radio, Stack } from '@mantine/core'
import { useState } from 'react'
import type { Cartridge } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'

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
      title={`Decide about ${cartridge.code}`}
      onClose={onClose}
      reasonLabel="Why, and who says so?"
      confirmLabel="Decide"
      isDanger={decision === 'discard'}
      isPending={decide.isPending}
      error={decide.error}
      onConfirm={(reason) => {
        if (decision !== undefined) decide.mutate({ params, body: { decision, reason } })
      }}
    >
      <p style={{ margin: 0 }}>{cartridge.quarantine?.reason}</p>
      <p style={{ margin: 0 }}>
        Ask the product’s data sheet or its maker: what froze or was cooked does not look it.
      </p>
      <Radio.Group
        label="Decision"
        required
        value={decision ?? ''}
        onChange={(value) => setDecision(value as Decision)}
      >
        <Stack gap="xs" mt="xs">
          <Radio value="discard" label="Discard it" required />
          <Radio value="use" label="Release it for use" required />
        </Stack>
      </Radio.Group>
    </ReasonDialog>
  )
}
