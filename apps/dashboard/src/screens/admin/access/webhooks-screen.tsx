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
import { t } from '../../../lib/reader.ts'

/** Other services that are told of alerts. */
export function WebhooksScreen() {
  const webhooks = useQuery(alertQueries.webhooks())
  const [adding, { open, close }] = useDisclosure()
  const [secret, setSecret] = useState<string>()
  return (
    <Page
      title={t('admin.webhooks')}
      lede={t('admin.otherServicesThatAreToldOfAlerts')}
      actions={
        <Button leftSection={<WebhookIcon size={16} aria-hidden />} onClick={open}>
          {t('admin.addWebhook')}
        </Button>
      }
    >
      <AdminNav />
      {secret !== undefined && <NewSecret secret={secret} />}
      <Answered query={webhooks} what={t('admin.webhooks2')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noWebhookYet')}>{t('admin.eachAlertIsSentAsASignedMessage')}</Empty>
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
      title={t('admin.addWebhook')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('admin.add')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <TextInput
        label={t('admin.name')}
        description={t('admin.whatHearsIt')}
        required
        data-autofocus
        {...form.getInputProps('name')}
      />
      <TextInput
        label={t('admin.address')}
        type="url"
        required
        placeholder={t('admin.https')}
        {...form.getInputProps('url')}
      />
      <MultiSelect
        label={t('admin.kindsOfAlert')}
        description={t('admin.everyKindWhenNoneIsChosen')}
        data={choicesOf(ALERT)}
        clearable
        {...form.getInputProps('kinds')}
      />
    </FormDialog>
  )
}
