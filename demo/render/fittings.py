"""The fittings of the demo in climbing order, with the pictures taken of each and what was seen."""
import math
from world import *

AREAS = {}       # far pictures: name -> camera


def area(name, target, direction, dist, **k):
    AREAS[name] = dict(target=target, cam=add(target, mul(unit(direction), dist)), flash=k.pop("flash", .5), dist=dist, **k)


def lerp(a, b, t): return add(a, mul(sub(b, a), t))


def on_stay(s, h):
    """The point of a stay at height h."""
    a, b = s.low, s.via or s.high
    if s.via and h > s.via[1]:
        a, b = s.via, s.high
    return lerp(a, b, (h - a[1]) / (b[1] - a[1]))


def define(M):
    """All fittings; M holds the marked points of the world."""
    S = STAYS
    out = []

    def fit(id, kind, target, direction, dist, far, stay=None, side=None, station="mast", metal="316", focus=None,
            up=True, down=None, signs=None, measured=(), verdict=None, not_seen=None, height=None, at=None, later=None, **k):
        """up / down: camera changes for that pass, True for the plain camera, None for no picture.
        signs: {pass: [(code, where, count, length, mark point, radius, words)]}.
        at: the times of both passes, for what was looked at between the rest; later: as down, for a picture that takes
        no time of its own."""
        shots = {}
        for name, v in (("up", up), ("down", down)):
            if v is None or not_seen:
                continue
            c = dict(target=target, direction=direction, dist=dist, far=far, focus=focus, **k)
            if isinstance(v, dict):
                c.update(v)
            shots[name] = c
        if later:
            later = dict(dict(target=target, direction=direction, dist=dist, far=far, focus=focus), **later)
        out.append(dict(at=at, later=later, id=id, kind=kind, stay=stay, side=side, station=station, metal=metal, shots=shots, signs=signs or {},
                        measured=measured, verdict=verdict, not_seen=not_seen,
                        height=(height if height is not None else target[1] / 1000.0)))

    # -- areas ------------------------------------------------------------------------------
    area("bow", S["forestay"].lo(230), (.55, .35, -.8), 900)
    area("inner-deck", S["inner"].lo(150), (.7, .42, -.7), 620)
    mid = lambda n: lerp(S["cap-" + n].lo(170), S["lower-" + n].lo(170), .5)
    area("port-deck", mid("port"), (1, .42, .42), 800)
    area("stern", S["backstay"].lo(210), (.5, .4, .8), 760)
    area("stbd-deck", mid("stbd"), (-1, .45, .35), 800)
    area("mast-low", (-40, 2330, 0), (-.9, .12, .6), 1000)
    area("port-mid", on_stay(S["lower-port"], 4300), (.55, .85, .35), 800)
    area("stbd-mid", on_stay(S["lower-stbd"], 4400), (-.5, .85, .4), 800)
    area("inner-mid", on_stay(S["inner"], 5600), (.8, .22, -.4), 700)
    area("root-port", (-60, 7500, 0), (-.6, .22, -.85), 780)
    area("root-stbd", (60, 7500, 0), (.62, .2, -.8), 780)
    area("tip-port", add(TIP[-1], (60, -60, 0)), (.5, .3, .85), 760)
    area("tip-stbd", add(TIP[1], (-60, -60, 0)), (-.5, .36, .85), 760)
    area("inner-top", (0, 8300, 80), (.75, -.12, .85), 900)
    area("head-port", (-50, 13760, 0), (-.9, .12, .6), 760)
    area("head-stbd", (50, 13770, 0), (.9, .08, .62), 760)
    area("head-fore", (0, 13880, 190), (.62, .12, 1), 800)
    area("head-aft", (0, 13800, -260), (-.62, .08, -1), 850)
    area("head-top", (0, 14070, -60), (.85, .55, .62), 640)
    # on the way down, from other places
    area("stern-down", S["backstay"].lo(260), (-.55, .5, .75), 820)
    area("port-deck-down", mid("port"), (1, .6, -.35), 760)
    area("stbd-deck-down", mid("stbd"), (-1, .5, -.5), 740)
    area("inner-deck-down", S["inner"].lo(120), (-.75, .5, -.6), 700)
    area("inner-mid-down", on_stay(S["inner"], 5600), (-.8, .3, -.4), 650)
    area("root-port-down", (-60, 7460, 0), (-.75, .1, .75), 700)
    area("root-stbd-down", (60, 7440, 0), (.75, .05, -.65), 700)
    area("tip-port-down", add(TIP[-1], (50, -30, 0)), (.4, .45, -.85), 680)
    area("tip-stbd-down", add(TIP[1], (-50, -30, 0)), (-.35, .42, -.85), 680)
    area("head-top-down", (0, 14060, -20), (-.75, .65, .7), 620)

    # gear of deck and mast
    area("bow-drum", S["forestay"].lo(590), (-.52, .42, -.85), 780)
    area("bow-drum-down", S["forestay"].lo(520), (-.3, .5, -1), 800)
    area("step", (0, 170, 20), (.55, .82, .62), 640, flash=.75)
    area("step-down", (0, 170, 30), (-.5, .85, .6), 620, flash=.75)
    area("rail-port", (-1480, 1330, -3230), (.8, .55, -.42), 900)
    area("rail-port-down", (-1500, 1330, -3200), (.85, .5, .4), 840)
    area("mast-low-stbd", (40, 2330, -40), (.9, .16, .42), 1050)
    area("mast-low-stbd-down", (40, 2300, -60), (.95, .12, -.15), 980)
    area("mast-halyard", (-30, 5000, -110), (-.75, .15, -.75), 720)
    area("mast-halyard-down", (-30, 5000, -110), (.6, .3, -.9), 680)
    area("lamp", (25, 9570, 70), (.9, .12, .8), 760)
    area("lamp-down", (25, 9570, 70), (.75, .35, .9), 700)
    area("head-aft-stbd", (0, 13890, -150), (.6, -.18, -1), 800)
    area("head-aerial", (-20, 14060, 100), (-.9, .3, -.1), 640)

    # -- deck -------------------------------------------------------------------------------
    def lower(sid, name, far, v, metal_brz="316", skip=(), extra=None, toggled="316"):
        """The five fittings at the foot of a stay; v: five camera directions."""
        s, e = S[sid], extra or {}
        g = [sid + ":lo"]
        k = s.k
        rows = [("chainplate", "chainplate", s.lo(-22), v[0], 118 * k, None, "316"),
                ("pin", "clevis-pin", s.lo(1, -6), v[1], 68 * k, g, "316"),
                ("toggle", "toggle", s.lo(34), v[2], 84 * k, g, toggled),
                ("turnbuckle", "turnbuckle", s.lo(198), v[3], 148 * k, g, metal_brz),
                ("low", "swaged-terminal", s.lo(357), v[4], 90 * k, g, "316")]
        for part, kind, t, d, dist, focus, metal in rows:
            a = dict(direction=d, dist=dist, focus=focus, metal=metal, target=t)
            a.update(e.get(part, {}))
            t, d, dist, f = a.pop("target"), a.pop("direction"), a.pop("dist"), a.pop("far", far)
            fit(name + "-" + part, kind, t, d, dist, f, stay=name, station="deck", **a)
            if part == "pin" and "split" in e:
                a = dict(e["split"])
                fit(name + "-split", "split-pin", a.pop("target"), a.pop("direction"), a.pop("dist"), far, stay=name, station="deck", metal="316", **a)

    weep = [("rust-weep", "deck line", None, None, M["cap-stbd-weep"], .17, "Brown water has run from the slot of the cover plate over the plate and on to the teak.")]
    lower("forestay", "forestay", "bow",
          [(.7, .55, -.7), (-.62, .5, -.7), (.5, .25, -1), (1, .15, -.5), (.8, .2, -.75)],
          extra={"low": dict(later=dict(far="bow-drum-down", target=S["forestay"].lo(374), direction=(-.85, .34, .5), dist=84, hi=1),
                            signs={"down": [("rust-bleed", "mouth", None, None, M["forestay-rust"], .13, "Brown bleeds from the mouth on the side towards the bow, which was not looked at on the way up; after wiping no line is to be seen with the glass.")]}),
                 "chainplate": dict(target=(0, 1085, 4335), direction=(.22, .8, -.62), dist=165, signs={"up": [("algae", "foot", None, None, None, 0, "Green film between the cheeks, washed off for the look.")]})})
    grub = lambda r, w: [("grub-screw-loose", "sleeve", 1, None, M["grub"], r, w)]
    fit("furler-drum", "furler-drum", M["sleeve"], (-1, .22, -.35), 140, "bow-drum", stay="forestay", station="deck", metal="aluminium", at=("08:54", "14:09"),
        down=dict(direction=(-.8, .35, -.75), dist=130, far="bow-drum-down"),
        signs={"up": grub(.11, "The upper grub screw of the torque sleeve stands out by 9 mm; white powder round its hole."),
               "down": grub(.12, "Turns with two fingers; the lower one is tight.")})
    lower("inner", "inner-forestay", "inner-deck",
          [(.8, .55, -.55), (1, .25, -.55), (.4, .3, -1), (1, .1, .3), (.6, .25, .8)],
          extra={"split": dict(target=M["inner-split"], direction=(-.95, .3, .35), dist=70, up=None,
                               down=dict(far="inner-deck-down"), measured=[("leg-angle", "128°")],
                               signs={"down": [("legs-wide", "legs", 1, None, M["inner-split"], .16, "The legs stand at right angles and more; they catch sheets and were bent more than once.")]})})
    lower("cap-port", "cap-port", "port-deck",
          [(1, .6, .5), (-.75, .35, .6), (.9, .25, -.55), (1, .15, .12), (1, .25, .5)],
          extra={"pin": dict(measured=[("pin-diameter", "12 mm")]),
                 "chainplate": dict(measured=[("hole-diameter", "12.8 mm"), ("plate-thickness", "8 mm")]),
                 "split": dict(target=M["cap-port-split"], direction=(-.75, .4, .65), dist=66, up=None,
                               down=dict(far="port-deck-down"), measured=[("leg-angle", "26°")],
                               signs={"down": [("head-down", "eye", 1, None, M["cap-port-split"], .07, "Put in from below: the eye hangs under the pin, the legs point up.")]})})
    tm = [("thread-marginal", "thread", 1, "14 mm", M["lower-port-thread"], .12, "The lower screw does not show in the window of the body; gauged through the slot.")]
    lower("lower-port", "lower-port", "port-deck",
          [(1, .5, -.4), (-.7, .35, -.7), (.55, .3, .9), (1, .1, -.06), (.8, .2, -.75)], metal_brz="bronze", toggled="bronze",
          extra={"turnbuckle": dict(down=dict(direction=(-.97, .12, .1), dist=112, target=S["lower-port"].lo(165), far="port-deck-down", focus=["lower-port:lo"]),
                                    measured=[("thread-engaged", "14 mm"), ("thread-diameter", "10 mm")],
                                    up=dict(portrait=1, dist=165),
                                    signs={"up": tm, "down": [("thread-marginal", "thread", 1, "14 mm", M["lower-port-thread"], .13, "As on the way up: the end of the lower screw is still inside the boss.")]})})
    lower("backstay", "backstay", "stern",
          [(.6, .5, .8), (-.85, .35, .4), (.5, .25, .9), (1, .2, .25), (-.5, .2, .9)],
          extra={"chainplate": dict(not_seen="bolted inside the laminate of the transom, its head under a moulded cover that is bonded down"),
                 "low": dict(down=dict(direction=(.62, .3, -.8), dist=74, target=S["backstay"].lo(370), far="stern-down", hi=1),
                             signs={"down": [("crack-along", "mouth", 2, "12 mm", M["backstay-crack"], .085, "Two fine lines run down the barrel from its mouth, on the side towards the stern; a fingernail catches in the longer one.")]})})
    lower("lower-stbd", "lower-starboard", "stbd-deck",
          [(-1, .5, .5), (-1, .3, .2), (-.5, .3, .9), (-1, .12, .1), (-.9, .25, -.5)], metal_brz="bronze", toggled="bronze",
          extra={"turnbuckle": dict(measured=[("thread-engaged", "41 mm"), ("thread-diameter", "10 mm")])})
    lower("cap-stbd", "cap-starboard", "stbd-deck",
          [(-1, .8, .4), (-1, .3, -.35), (-.8, .3, .65), (-1, .15, -.1), (-1, .3, -.4)],
          extra={"chainplate": dict(target=add(M["cap-stbd-weep"], (0, 24, 0)), dist=140, up=dict(hi=1),
                                    down=dict(direction=(-.9, .75, -.65), dist=125, far="stbd-deck-down"),
                                    signs={"up": weep, "down": [("rust-weep", "deck line", None, None, M["cap-stbd-weep"], .19, "The same run of rust; the sealant has let go of the plate on the inboard side.")]}),
                 "pin": dict(measured=[("pin-diameter", "12 mm")])})
    fit("wall-at-partners", "mast-wall", (0, 1420, 0), (1, 0, 0), 300, "mast-low", side="centre", station="deck", metal="aluminium", height=1.4,
        not_seen="under the mast coat, which is clamped and sealed")

    drain = lambda r, w: [("drain-blocked", "drain", 1, None, M["drain"], r, w)]
    fit("mast-step", "mast-step", add(M["drain"], (6, 4, -12)), (.34, .75, .8), 175, "step", side="centre", station="deck", metal="aluminium", at=("08:56", "14:16"),
        down=dict(direction=(-.45, .9, .6), dist=165, far="step-down"),
        signs={"up": drain(.13, "Water stands in the step; its drain is full of leaves and paint flakes."),
               "down": drain(.14, "Still full of water; the muck was left for the yard to see.")})
    fit("lightning-bond", "lightning-conductor", M["bond"], (.62, .85, .55), 245, "step", side="centre", station="deck", metal="bronze", at=("08:58", "14:18"))
    rail = lambda r, w: [("loose", "base", None, "4 mm", M["stanchion"], r, w)]
    fit("stanchion-base-port", "stanchion-base", add(M["stanchion"], (6, 8, 8)), (1, .62, -.5), 190, "rail-port", side="port", station="deck", metal="316", at=("09:00", "14:12"),
        down=dict(direction=(1, .45, .3), dist=175, far="rail-port-down"),
        signs={"up": rail(.14, "The inboard edge of the foot lifts off the deck, one screw has pulled out, the bedding is torn."),
               "down": rail(.15, "Moves 4 mm at its edge when the post is pushed by hand.")})
    wire = lambda r, w: [("rust-under-cover", "wire", None, "70 mm", M["guardwire"], r, w)]
    fit("guardwire-port", "guardwire", add(M["guardwire"], (0, 0, 10)), (.9, .25, .3), 105, "rail-port", side="port", station="deck", metal="316", at=("09:02", "14:14"),
        down=dict(direction=(.75, .5, -.45), dist=95, far="rail-port-down"),
        signs={"up": wire(.17, "Rust bleeds from under the plastic cover where it ends; the cover is swollen and split."),
               "down": wire(.18, "Crumbs of rust fall out when the cover is pinched.")})

    # -- aloft ------------------------------------------------------------------------------
    goose = lambda r, w: [("pin-worn", "pin", 1, None, M["gooseneck"], r, w)]
    fit("gooseneck", "gooseneck", (30, 2160, -196), (1, .22, .42), 150, "mast-low-stbd", side="centre", station="mast", metal="316", at=("10:36", "12:59"),
        down=dict(direction=(.9, .12, -.55), dist=140, far="mast-low-stbd-down"),
        signs={"up": goose(.12, "The pin is worn to a waist below the tongue, and again above it; the boom drops when it is lifted and let go."),
               "down": goose(.12, "About 8 mm left of 14 mm.")})
    blis = lambda r, w: [("paint-bubbles", "wall", None, "50 mm", M["pad-bubbles"], r, w)]
    fit("wall-winch-pad", "mast-wall", add(M["pad-bubbles"], (4, 0, -12)), (1, .2, .75), 150, "mast-low-stbd", side="starboard", station="mast", metal="aluminium", at=("10:38", "12:57"),
        down=dict(direction=(1, .3, .3), dist=140, far="mast-low-stbd-down"),
        signs={"up": blis(.16, "Blisters in the paint along the forward edge of the pad; no isolator under it."),
               "down": blis(.17, "Same patch; the larger ones give under the thumb.")})
    edge = lambda r, w: [("edge-sharp", "slot", None, None, M["exit-edge"], r, w)]
    fit("exit-starboard", "halyard-exit", add(M["exit-edge"], (2, 8, 0)), (1, .18, .5), 120, "mast-low-stbd", side="starboard", station="mast", metal="316", at=("10:40", "12:55"),
        down=dict(direction=(1, -.1, -.55), dist=110, far="mast-low-stbd-down"),
        signs={"up": edge(.11, "The lower end of the slot stands up in a burr, and the halyard is furred where it passes."),
               "down": edge(.12, "Cuts a fingernail; blue fibres hang in it.")})
    fit("exit-low", "mast-wall", (-57, 2350, 0), (-1, .15, .35), 165, "mast-low", side="port", metal="aluminium", focus=None)
    fit("lower-port-strand", "strand", on_stay(S["lower-port"], 4300), (.8, .2, .6), 62, "port-mid", stay="lower-port", focus=["lower-port:st"])
    chafe = lambda r, w: [("chafed", "line", 1, "110 mm", M["halyard-chafe"], r, w)]
    fit("flag-halyard", "flag-halyard", M["halyard-chafe"], (-.8, .12, -.8), 130, "mast-halyard", side="port", station="mast", metal="polyester", at=("10:49", "12:49"),
        down=dict(direction=(.5, .25, -1), dist=120, far="mast-halyard-down"),
        signs={"up": chafe(.20, "The cover is through over a hand's breadth, the core lies open."),
               "down": chafe(.20, "One of the three yarns of the core is half through.")})
    tea = lambda r, w: [("tea-stain", "wire", None, None, on_stay(S["inner"], 5600), r, w)]
    fit("inner-forestay-strand", "strand", on_stay(S["inner"], 5600), (.9, .15, -.3), 60, "inner-mid", stay="inner-forestay", focus=["inner:st"],
        down=dict(direction=(-.8, .3, -.5), dist=54, far="inner-mid-down"),
        signs={"up": tea(.16, "Even brown haze over all wires; wipes off, no pits under it."), "down": tea(.16, "Brown haze, no pits with the glass.")})
    fit("lower-starboard-strand", "strand", add(M["lower-stbd-broken"], (0, -2, 0)), (-.45, -.1, -1), 66, "root-stbd", stay="lower-starboard", focus=["lower-stbd:up"],
        up=dict(hi=1), down=dict(direction=(.35, .05, -1), dist=58, far="root-stbd-down"),
        signs={"up": [("wire-broken", "mouth", 1, None, M["lower-stbd-broken"], .15, "One outer wire has parted about 30 mm below the mouth of the upper terminal; its end stands off.")],
               "down": [("wire-broken", "mouth", 1, None, M["lower-stbd-broken"], .15, "One outer wire parted below the upper terminal, no second one found.")]})
    out[-1]["height"] = 7.2
    for side, n, name in ((-1, "port", "lower-port"), (1, "stbd", "lower-starboard")):
        s = S["lower-" + n]
        g = [s.id + ":up", s.id + ":st"]
        fit(name + "-high", "swaged-terminal", s.up(-80), (side * .75, .05, -.7 if side < 0 else .7), 96, "root-" + n, stay=name, focus=g)
        bub = {}
        if side < 0:
            bub = dict(up=dict(direction=(-1, .25, .75), dist=135, target=add(M["lower-port-bubbles"], (-4, 8, -14)), hi=1),
                       down=dict(direction=(-.75, -.2, 1), dist=110, far="root-port-down", target=add(M["lower-port-bubbles"], (0, 5, -8))),
                       signs={"up": [("paint-bubbles", "wall", None, "60 mm", M["lower-port-bubbles"], .17, "The paint is lifted in blisters along the forward edge of the strap; no isolator to be seen under it.")],
                              "down": [("paint-bubbles", "wall", None, "60 mm", M["lower-port-bubbles"], .19, "Blisters, some of them open, brown at the foot.")]})
        fit(name + "-tang", "tang", (side * 60, 7440, -22), (side, .1, -.45), 150, "root-" + n, stay=name, focus=None, **bub)
    for side, n, name in ((-1, "port", "port"), (1, "stbd", "starboard")):
        more = {}
        if side > 0:
            more = dict(up=dict(direction=(.62, .3, -.85), target=add(M["root-stbd-bubbles"], (22, -28, 14)), dist=170),
                        down=dict(direction=(.85, .1, -.6), target=add(M["root-stbd-bubbles"], (10, -16, 8)), dist=140, far="root-stbd-down"),
                        signs={"up": [("paint-bubbles", "wall", None, "40 mm", M["root-stbd-bubbles"], .13, "A patch of small blisters behind the upper corner of the base plate.")],
                               "down": [("paint-bubbles", "wall", None, "40 mm", M["root-stbd-bubbles"], .14, "Same patch; hard to the touch, none of them open.")]},
                        verdict=("watch", "photographed in the same size two years ago; the plate sits on an isolator and the blisters are hard and dry"))
        fit("spreader-root-" + name, "spreader-root", (side * 90, 7605, 0), (side * .55, .3, -.85 if side < 0 else .85), 185, "root-" + n, side=name,
            station="spreader-1", metal="aluminium", **more)
    fit("spreader-tip-port", "spreader-tip", add(TIP[-1], (-12, -6, 0)), (.12, -.12, 1), 110, "tip-port", side="port", station="spreader-1", metal="aluminium", focus=["spreader-port", "cap-port:st"],
        measured=[("angle-above", "9.3°"), ("angle-below", "5.3°"), ("spreader-rise", "0.5°")],
        down=dict(direction=(-.35, .3, -1), dist=105, far="tip-port-down"),
        signs={"up": [("not-seized", "tip", None, None, add(TIP[-1], (0, -22, 0)), .15, "No seizing on the shroud; a loose end of old wire hangs in the casting.")],
               "down": [("not-seized", "tip", None, None, add(TIP[-1], (0, 0, 0)), .16, "The tip can be pushed down along the shroud by hand.")]})
    fit("spreader-tip-starboard", "spreader-tip", add(TIP[1], (-10, 0, 0)), (.25, .4, 1), 150, "tip-stbd", side="starboard", station="spreader-1", metal="aluminium", focus=["spreader-stbd", "cap-stbd:st"],
        down=dict(direction=(.45, .25, -1), dist=160, far="tip-stbd-down"),
        signs={"up": [("hidden", "tip", None, None, add(TIP[1], (-12, 0, -4)), .22, "Wrapped in old tape; it was not taken off without the owner's leave.")],
               "down": [("hidden", "tip", None, None, add(TIP[1], (-12, 0, -4)), .22, "Still under its tape, water comes out when it is squeezed.")]})
    for side, n, name in ((-1, "port", "cap-port"), (1, "stbd", "cap-starboard")):
        s = S["cap-" + n]
        fit(name + "-strand", "strand", on_stay(s, 7900), (-side * .5, .2, .85 if side < 0 else -.8), 58, "tip-" + n, stay=name, station="spreader-1", focus=[s.id + ":st"],
            measured=[("gauge-length", "2 m"), ("stretch", "2.8 mm" if side < 0 else "2.5 mm")])
    s = S["inner"]
    fit("inner-forestay-high", "swaged-terminal", s.up(-80), (.85, .0, .5), 94, "inner-top", stay="inner-forestay", focus=["inner:up", "inner:st"])
    fit("inner-forestay-tang", "tang", (0, 8132, 112), (.85, .25, .75), 130, "inner-top", stay="inner-forestay", focus=None)
    fit("exit-high", "mast-wall", (0, 8690, 84), (.5, .1, 1), 165, "inner-top", side="centre", metal="aluminium")
    lamp = dict(side="centre", metal="plastic")
    fit("steaming-light", "light", (34, 9632, 116), (.9, .1, .8), 130, "lamp", at=("11:12", "12:26"), measured=[("lamp-power", "25 W"), ("lamp-voltage", "12 V"), ("lamp-hours", "3 h")], **lamp)
    cable = lambda r, w: [("chafed", "wire", 1, "30 mm", M["cable"], r, w)]
    fit("steaming-light-wiring", "wiring", add(M["cable"], (-3, 6, 0)), (1, .12, .35), 78, "lamp", at=("11:13", "12:24"),
        down=dict(direction=(1, .35, -.1), dist=74, far="lamp-down"),
        signs={"up": cable(.16, "The cable lies on the bare edge of its hole: sheath through, one core down to the copper."),
               "down": cable(.17, "No grommet in the hole, and none left in the mast.")}, **lamp)
    fit("forestay-strand", "strand", on_stay(S["forestay"], 9000), (1, 0, 0), 60, "head-fore", stay="forestay", height=9.0,
        not_seen="inside the foil of the furler; only its ends were seen")
    fit("foil", "foil", on_stay(S["forestay"], 7500), (1, 0, 0), 60, "head-fore", stay="forestay", metal="aluminium", height=7.5,
        not_seen="behind the headsail, which stayed rolled round it")
    fit("furler-swivel", "furler-swivel", on_stay(S["forestay"], 12900), (1, 0, 0), 60, "head-fore", stay="forestay", metal="aluminium", height=12.9,
        not_seen="at the head of the rolled sail, out of reach from the mast")
    fit("backstay-strand", "strand", on_stay(S["backstay"], 13300), (-.7, .25, -.7), 62, "head-aft", stay="backstay", station="masthead", focus=["backstay:st", "backstay:up"])
    for side, n, name in ((-1, "port", "cap-port"), (1, "stbd", "cap-starboard")):
        s = S["cap-" + n]
        fit(name + "-high", "swaged-terminal", s.up(-80), (side * .9, .0, .45 if side < 0 else -.5), 104, "head-" + n, stay=name, station="masthead", focus=[s.id + ":up", s.id + ":st"])
        fit(name + "-tang", "tang", (side * 62, 13800, 0), (side, -.1 if side < 0 else .2, .5 if side < 0 else .35), 155, "head-" + n, stay=name, station="masthead", focus=None)
    fit("forestay-high", "swaged-terminal", S["forestay"].up(-82), (.8, .0, .75), 104, "head-fore", stay="forestay", station="masthead", focus=["forestay:up"])
    fit("forestay-tang", "tang", (0, 13946, 240), (.55, -.38, 1), 100, "head-fore", stay="forestay", station="masthead", focus=["forestay:up", "masthead"])
    fit("backstay-high", "swaged-terminal", S["backstay"].up(-82), (-.75, -.1, -.8), 100, "head-aft", stay="backstay", station="masthead", focus=["backstay:up", "backstay:st"])
    fit("backstay-tang", "tang", (0, 13946, -240), (-.6, -.2, -1), 104, "head-aft", stay="backstay", station="masthead", focus=["backstay:up", "masthead"])
    fit("masthead", "masthead", (6, 13900, 160), (.5, -.6, .9), 190, "head-fore", side="centre", station="masthead", metal="aluminium", focus=["masthead", "mast", "forestay:up"])
    sheave = lambda r, w: [("sheave-worn", "sheave", 1, None, M["sheave"], r, w)]
    fit("sheave-aft-starboard", "sheave-box", (16, 13900 - 34, -150 - 22), (.12, -.75, -.9), 125, "head-aft-stbd", side="centre", station="masthead", metal="plastic", at=("11:36", "12:03"),
        down=dict(direction=(-.1, -.45, -1), dist=118),
        signs={"up": sheave(.16, "The groove is cut over to starboard down to the flange, and the flange is broken out below."),
               "down": sheave(.16, "Wobbles on its pin.")})
    bulb = (0, 14012 + 50, 88)
    top = dict(side="centre", station="masthead", focus=["top", "masthead"])
    fit("anchor-light", "light", add(bulb, (0, -4, 0)), (.65, .22, 1), 120, "head-top", metal="plastic", **top, down=dict(direction=(-.8, .35, .8), dist=105, far="head-top-down"),
        measured=[("lamp-power", "10 W"), ("lamp-voltage", "12 V"), ("lamp-hours", "10 h")],
        signs={"up": [("does-not-burn", "lens", 1, None, bulb, .13, "Dark when switched on from below; the bulb is blackened.")],
               "down": [("does-not-burn", "lens", 1, None, bulb, .14, "Tried once more, stays dark.")]})
    fit("wind-instrument", "wind-instrument", (30, 14085, -300), (1, .28, -.35), 330, "head-top", metal="plastic", **top)
    fit("antenna", "antenna", add(M["aerial"], (6, 14, 0)), (-1, .16, -.28), 115, "head-aerial", side="port", station="masthead", metal="plastic", at=("11:38", "12:01"), up=None,
        down=dict(),
        signs={"down": [("loose", "foot", 1, None, M["aerial"], .12, "Rocks by hand, here pushed forward: the foot lifts off the plate, the sealant under it is torn.")]})
    peck = M["wiring-pecked"]
    fit("light-wiring", "wiring", peck, (.9, .42, .3), 84, "head-top", metal="other", **top, down=dict(direction=(.75, .55, .75), dist=74, far="head-top-down"),
        signs={"up": [("pecked", "wire", 1, "35 mm", peck, .13, "The sheath is picked away, both cores lie open, one down to the copper.")],
               "down": [("pecked", "wire", 1, "35 mm", peck, .15, "Bare copper on one core.")]})
    nest = M["nest"]
    fit("nest", "nest", nest, (-.55, .75, .5), 170, "head-top", metal="other", side="centre", station="masthead", focus=None, down=dict(direction=(-.9, .6, -.35), dist=160, far="head-top-down"),
        signs={"up": [("birds", "body", 1, None, (0, 14030, -35), .24, "Nest of straw and twigs on the top plate, empty.")],
               "down": [("birds", "body", 1, None, (0, 14030, -35), .25, "Left where it is until the works are done; nobody at home.")]})
    return out
