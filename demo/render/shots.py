from world import *
import __main__
M = __main__.world.marks
s = STAYS
def shot(name, t, d, dist, **k):
    return dict(name=name, target=t, cam=add(t, mul(unit(d), dist)), **k)
SHOTS = [
 shot("c10", M["cap-port-split"], (-.8,.35,.6), 75),
 shot("c11", M["cap-stbd-weep"], (-1,.8,.4), 150),
 shot("t3", s["backstay"].lo(372), (.6,.3,-.8), 75, focus=["backstay:lo"]),
]
