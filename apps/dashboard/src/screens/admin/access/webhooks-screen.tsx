import { ROUTES } from '../../../api/contracts.ts'
import { Button, MultiSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { Webhook as WebhookIcon } from 'lucide-react'
import { useState } from 'react'
import { alertQueries, type AlertKind } from '../../../api/queries/alerts.ts'
import { useAction } from '../../../api/use-action.ts'
import { ALERT, choicesOf } from '../../../lib/words.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Page } from '../../../ui/page.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { AdminNav } from '../admin-nav.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { NewSecret } from './new-secret.tsx'
import { WebhookCard } from './webhook-card.tsx'

/** Other services that are told of alerts. */
export function WebhooksScreen() {
  const webhooks = useQuery(alertQueries.webhooks())
  const [adding, { open, close }] = useDisclosure()
  const [secret, setSecret] = useState<string>()
  return (
    <Page
      title="Webhooks"
      lede="Other services that are told of alerts"
      actions={
        <Button leftSection={<WebhookIcon size={16} aria-hidden />} onClick={open}>
          Add webhook
        </Button>
      }
    >
      <AdminNav />
      {secret !== undefined && <NewSecret secret={secret} />}
      <Answered query={webhooks} what="webhooks">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No webhook yet.">
              Each alert is sent as a signed message (Standard Webhooks) when it opens and when it closes.
            </Empty>
          ) : (
            items.map((webhook) => <WebhookCard key={webhook.id} webhook={webhook} />)
          )
        }
      </Answered>
      {adding && (
        <WebhookDialog
          onClose={close}
          onMade={(made) => {
            setSecret(made)
            close()
          }}
        />
      )}
    </Page>
  )
}

interface DialogProps {
  readonly onClose: () => void
  readonly onMade: (secret: string) => void
}

function WebhookDialog({ onClose, onMade }: DialogProps) {
  const form = useForm({ initialValues: { name: '', url: '', kinds: [] as string[] } })
  const add = useAction(ROUTES.addWebhook, { topics: ['alerts'], onDone: ({ secret }) => onMade(secret) })
  const others = useFormReasons(form, add.error)
  const submit = form.onSubmit(({ name, url, kinds }) =>
    add.mutate({ body: { name, url, kinds: kinds as AlertKind[] } }),
  )
  return (
    <FormDialog
      title="Add webhook"
      onClose={onClose}
      onSubmit={submit}
      submitLabel="Add"
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <TextInput
        label="Name"
        description="What hears it"
        required
        data-autofocus
        {...form.getInputProps('name')}
      />
      <TextInput label="Address" type="url" required placeholder="https://" {...form.getInputProps('url')} />
      <MultiSelect
        label="Kinds of alert"
        description="Every kind when none is chosen"
        data={choicesOf(ALERT)}
        clearable
        {...form.getInputProps('kinds')}
      />
    </FormDialog>
  )
}
