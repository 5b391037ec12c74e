from world import *
s = STAYS
def shot(name, t, d, dist, **k):
    return dict(name=name, target=t, cam=add(t, mul(unit(d), dist)), **k)
SHOTS = [
 shot("t1", s["cap-port"].lo(350), (1,.25,.5), 110, focus=["cap-port:lo"]),
 shot("t2", s["lower-port"].lo(190), (1,.2,-.5), 170, focus=["lower-port:lo"]),
 shot("t3", s["cap-stbd"].lo(20), (-1,.5,.5), 130, ),
 shot("far1", add(s["cap-port"].lo(250),(0,0,-200)), (1,.45,.5), 2300, flash=.5),
]
