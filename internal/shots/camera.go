package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/chromedp/chromedp"

	"github.com/chromedp/cdproto/emulation"
	cdpage "github.com/chromedp/cdproto/page"
)

// camera is one browser tab that looks at served pages.
type camera struct {
	ctx   context.Context
	at    string
	close func()
}

// longestWait is how long a stage may take to be reckoned on a small machine.
const longestWait = 10 * time.Minute

func openCamera(ctx context.Context, at string) (*camera, error) {
	profile, err := os.MkdirTemp("", "shots-browser")
	if err != nil {
		return nil, err
	}
	ctx, end := chromedp.NewExecAllocator(ctx,
		chromedp.NoSandbox, chromedp.Headless, chromedp.DisableGPU, chromedp.NoFirstRun, chromedp.UserDataDir(profile),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-sync", true))
	tab, endTab := chromedp.NewContext(ctx)
	c := &camera{ctx: tab, at: at, close: func() {
		_ = chromedp.Cancel(tab) // closed before the folder of its profile is removed
		endTab()
		end()
		_ = os.RemoveAll(profile)
	}}
	if _, err := chromedp.Run(tab, chromedp.EmulateViewport(390, 844)); err != nil {
		c.close()
		return nil, err
	}
	return c, nil
}

// open shows a page when its stage has been reckoned.
func (c *camera) open(address, theme string, width, height int64) error {
	scheme := map[string]string{"day": "light", "night": "dark"}[theme]
	media := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: "prefers-reduced-motion", Value: "reduce"}}}
	if _, err := chromedp.Call(c.ctx, emulation.SetEmulatedMedia, media); err != nil {
		return err
	}
	if err := chromedp.Do(c.ctx, chromedp.EmulateViewport(width, height), chromedp.Navigate(c.at+address)); err != nil {
		return err
	}
	for deadline := time.Now().Add(longestWait); time.Now().Before(deadline); {
		// A page that waits goes away while it is asked: that is no error.
		ready, err := chromedp.Run(c.ctx, chromedp.Evaluate[bool](`document.readyState === "complete" && document.querySelector("#progress") === null`))
		if err == nil && ready {
			return nil
		}
		if err := c.ctx.Err(); err != nil {
			return err
		}
		time.Sleep(50 * time.Millisecond)
	}
	return fmt.Errorf("%s was not ready after %s", address, longestWait)
}

// run does something to the page before it is shot.
func (c *camera) run(script string) error {
	if script == "" {
		return nil
	}
	_, err := chromedp.Run(c.ctx, chromedp.Evaluate[bool](script))
	return err
}

func (c *camera) shootAll(w wishes) error {
	for _, p := range wanted(w.only) {
		for _, width := range widths {
			for _, theme := range themes {
				if err := c.open(p.address(w.rig), theme, width, 900); err != nil {
					return err
				}
				if err := c.run(p.script); err != nil {
					return err
				}
				shot, err := c.whole(width)
				if err != nil {
					return fmt.Errorf("%s: %w", p.name, err)
				}
				file := fmt.Sprintf("%s-%d-%s.png", p.name, width, theme)
				if err := os.WriteFile(filepath.Join(w.to, file), shot, 0o644); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// tallest is how much of a page a browser can paint at once, px.
const tallest = 16000

// whole is a page from its head down.
func (c *camera) whole(width int64) ([]byte, error) {
	height, err := chromedp.Run(c.ctx, chromedp.Evaluate[float64](`document.documentElement.scrollHeight`))
	if err != nil {
		return nil, err
	}
	beyond := true
	shot, err := chromedp.Call(c.ctx, cdpage.CaptureScreenshot, cdpage.CaptureScreenshotParams{
		CaptureBeyondViewport: &beyond, Clip: &cdpage.Viewport{Width: float64(width), Height: min(height, tallest), Scale: 1},
	})
	return shot.Data, err
}

func (c *camera) shootDocs(folder string) error {
	for _, d := range documents {
		height := int64(844)
		if d.width > 390 {
			height = d.width * 5 / 8
		}
		p := wanted([]string{d.page})[0]
		if err := c.open(p.address(d.rig), d.theme, d.width, height); err != nil {
			return err
		}
		if err := c.run(p.script); err != nil {
			return err
		}
		shot, err := c.screen(d.from)
		if err != nil {
			return fmt.Errorf("%s: %w", d.file, err)
		}
		small, err := fewColours(shot)
		if err != nil {
			return fmt.Errorf("%s: %w", d.file, err)
		}
		if err := os.WriteFile(filepath.Join(folder, d.file), small, 0o644); err != nil {
			return err
		}
		fmt.Printf("%s %d kB\n", d.file, (len(small)+999)/1000)
	}
	return nil
}

// screen is what a person sees, scrolled to an element.
func (c *camera) screen(from string) ([]byte, error) {
	if from != "" {
		if err := c.run(fmt.Sprintf(`(document.querySelector(%q).scrollIntoView({ behavior: "instant", block: "start" }), true)`, from)); err != nil {
			return nil, err
		}
	}
	shot, err := chromedp.Call(c.ctx, cdpage.CaptureScreenshot, cdpage.CaptureScreenshotParams{})
	return shot.Data, err
}
