from world import *
import __main__
W = __main__.world
M = W.marks
s = STAYS
def shot(name, t, d, dist, **k):
    return dict(name=name, target=t, cam=add(t, mul(unit(d), dist)), **k)
SHOTS = [
 shot("c1", M["lower-stbd-broken"], (-.4,-.1,-1), 60, focus=["lower-stbd:up"]),
 shot("c2", M["lower-port-bubbles"], (-1,.2,.6), 130, ),
 shot("c6", M["wiring-pecked"], (.9,.4,.3), 100, focus=["top"]),
 shot("c11", M["cap-stbd-weep"], (-1,.8,.4), 150),
 shot("c10", M["cap-port-split"], (-.8,.35,.6), 75),
 shot("t3", s["backstay"].lo(372), (.6,.3,-.8), 75, focus=["backstay:lo"]),
]
