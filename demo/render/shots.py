from world import *
import __main__
W = __main__.world
M = W.marks
s = STAYS
def shot(name, t, d, dist, **k):
    return dict(name=name, target=t, cam=add(t, mul(unit(d), dist)), **k)
SHOTS = [
 shot("c1", M["lower-stbd-broken"], (-.4,-.1,-1), 90, focus=["lower-stbd:up"]),
 shot("c2", M["lower-port-bubbles"], (-1,.2,.6), 160, ),
 shot("c3", M["tip-stbd-tape"], (.3,.5,1), 190),
 shot("c4", M["tip-port-unseized"], (.1,-.1,1), 150),
 shot("c5", M["nest"], (-.5,.7,.5), 190,),
 shot("c6", M["wiring-pecked"], (.9,.4,.3), 110, focus=["top"]),
 shot("c7", M["light"], (.6,.3,1), 150, focus=["top"]),
 shot("c8", M["root-stbd-bubbles"], (.6,.3,-.8), 200),
 shot("c9", M["inner-split"], (-.7,.3,.6), 75),
 shot("c10", M["cap-port-split"], (-.2,.3,1), 75),
 shot("c11", M["cap-stbd-weep"], (-1,.8,.4), 150),
 shot("c12", M["lower-port-thread"], (1,.1,0), 110),
]
