package live

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"time"
)

const webhookTime = 10 * time.Second

// webhook posts alarms as JSON to an address on the local network.
type webhook struct {
	address string
	rig     string
	client  *http.Client
}

func newWebhook(address, rig string) *webhook {
	return &webhook{address, rig, &http.Client{
		Timeout: webhookTime,
		// No proxy: the call must not leave by another way. No following: an answer
		// must not choose where we call.
		Transport:     &http.Transport{Proxy: nil, DialContext: localDialer().DialContext, DisableKeepAlives: true},
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}}
}

// post tells of one alarm. Its errors leave the address out: it may hold a secret.
func (h *webhook) post(ctx context.Context, a Alarm) error {
	text, err := json.Marshal(noticeOf(h.rig, a))
	if err != nil {
		return err
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodPost, h.address, bytes.NewReader(text))
	if err != nil {
		return errors.New("live.webhook is no address")
	}
	request.Header.Set("Content-Type", "application/json")
	answer, err := h.client.Do(request)
	var wrapped *url.Error
	if errors.As(err, &wrapped) {
		return wrapped.Err
	}
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	_, _ = io.Copy(io.Discard, io.LimitReader(answer.Body, mostPayload)) // what it answers does not matter
	if answer.StatusCode/100 != 2 {
		return fmt.Errorf("it answered %d", answer.StatusCode)
	}
	return nil
}
