package web
import ("testing";"time";"os")
func TestZZC3(t *testing.T){ if os.Getenv("C3")=="" {t.Skip()}
 v:=visitMarket(t,&marketAt{}); v.get("/choose"); search(v); v.get("/choose"); at:=v.serve(); os.WriteFile("/tmp/c3/at",[]byte(at),0o644); time.Sleep(10*time.Minute) }
