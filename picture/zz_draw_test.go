package picture
import ("os";"testing";"fmt";q "ampstead/quantity")
func TestZZDraw(t *testing.T){
 for name,u:=range map[string]q.System{"curlew-draft":q.Metric,"curlew":q.Metric,"dipper":q.US}{
  for _,w:=range []int{390,1040}{ os.WriteFile(fmt.Sprintf("/tmp/ol/r/%s-%d.svg",name,w),[]byte(OneLine(wired(t,name),Options{Width:w,Units:u,Standalone:true})),0644)}}
 for _,w:=range []int{390,1040}{ os.WriteFile(fmt.Sprintf("/tmp/ol/r/van-%d.svg",w),[]byte(OneLine(smallVan(),Options{Width:w,Standalone:true})),0644)}
}
