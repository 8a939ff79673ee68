//! A frame as it is written in a request.

use crate::ask::given::Given;
use crate::solve::frame::{Frame, Link, LoadCase, Member, MemberLoad, Node, Section, Sense, Stretch, Support, Three};
use crate::units::Kind;

/// A frame, its loads and where along each member forces are wanted.
pub(super) struct Asked {
    pub frame: Frame,
    pub case: LoadCase,
    pub stations: Vec<Vec<f64>>,
}

/// What stands at one node.
struct Point {
    node: Node,
    force: [f64; 6],
    moved: Option<[f64; 6]>,
}

/// A member with its loads; the shares of its notches are known with its length alone.
struct Bar {
    member: Member,
    notches: Vec<([f64; 2], Section)>,
    loads: Vec<MemberLoad>,
    stations: Vec<f64>,
}

/// What stands between two nodes, and where they touch: a share of the way between them.
struct Touch {
    nodes: [usize; 2],
    share: f64,
    beside: Three,
    stiffness: [f64; 6],
}

pub(super) fn asked(given: &mut Given<'_>) -> Option<Asked> {
    let points = given.list("nodes", point);
    let bars = given.list("members", bar);
    let touches = given.list("links", touch);
    let (mut frame, mut case, mut stations) = (Frame::default(), LoadCase::default(), Vec::new());
    for (index, point) in points.into_iter().enumerate() {
        frame.nodes.push(point.node);
        case.nodes.push((index, point.force));
        let moved = point.moved.into_iter().flatten().enumerate().filter(|(_, far)| *far != 0.0);
        case.settled.extend(moved.map(|(direction, far)| (index, direction, far)));
    }
    for (index, bar) in bars.into_iter().enumerate() {
        let Some(ends) = ends(&frame, bar.member.nodes) else {
            given.problem(format!("member {} joins nodes that are not there, or one with itself", index + 1));
            return None;
        };
        let length = distance(ends);
        let mut member = bar.member;
        for ([from, to], section) in bar.notches {
            if !(0.0 <= from && from < to && to <= length) {
                given.problem(format!("a notch of member {} must lie between its ends", index + 1));
                return None;
            }
            member = member.with_stretch(from / length, to / length, section);
        }
        if member.reference == [0.0; 3] {
            member.reference = standing(ends);
        }
        frame.members.push(member);
        case.members.extend(bar.loads.into_iter().map(|load| (index, load)));
        stations.push(bar.stations);
    }
    for (index, touch) in touches.into_iter().enumerate() {
        let link = ends(&frame, touch.nodes)
            .and_then(|points| Link::along_normal(touch.nodes, points, touch.share, touch.beside, touch.stiffness));
        let Some(link) = link else {
            given.problem(format!(
                "link {} needs two nodes apart and a direction `beside` that is not along it",
                index + 1
            ));
            return None;
        };
        frame.links.push(link);
    }
    Some(Asked { frame, case, stations })
}

fn ends(frame: &Frame, nodes: [usize; 2]) -> Option<[Three; 2]> {
    let points = [frame.nodes.get(nodes[0])?.at, frame.nodes.get(nodes[1])?.at];
    (distance(points) > 0.0).then_some(points)
}

fn distance([from, to]: [Three; 2]) -> f64 {
    from.iter().zip(to).map(|(a, b)| (b - a).powi(2)).sum::<f64>().sqrt()
}

/// The reference of a member that gives none: upright, or along x for a member that is upright itself.
fn standing([from, to]: [Three; 2]) -> Three {
    const NEARLY_UPRIGHT: f64 = 1e-3;
    let level = (to[0] - from[0]).hypot(to[1] - from[1]);
    if level > NEARLY_UPRIGHT * distance([from, to]) { [0.0, 0.0, 1.0] } else { [1.0, 0.0, 0.0] }
}

const DIRECTIONS: [&str; 6] = ["x", "y", "z", "rx", "ry", "rz"];

/// The directions that a text marks.
fn marked(given: &mut Given<'_>, key: &'static str) -> [bool; 6] {
    let words = given.words(key);
    if let Some(word) = words.iter().find(|word| !DIRECTIONS.contains(word)) {
        given.problem(format!("`{key}` names \"{word}\"; known: {}", DIRECTIONS.join(" ")));
    }
    DIRECTIONS.map(|direction| words.contains(&direction))
}

fn joined(first: Option<[f64; 3]>, last: Option<[f64; 3]>) -> [f64; 6] {
    let parts = [first.unwrap_or_default(), last.unwrap_or_default()];
    std::array::from_fn(|k| parts[k / 3][k % 3])
}

fn point(given: &mut Given<'_>) -> Option<Point> {
    let at = given.numbers::<3>("at_m");
    let fast = marked(given, "fast");
    let springs = joined(given.numbers("spring_n_m"), given.numbers("turn_spring_n_m_rad"));
    let force = joined(given.numbers("force_n"), given.numbers("moment_n_m"));
    let moved = [given.numbers("moved_m"), given.numbers("turned_rad")];
    let moved = moved.iter().any(Option::is_some).then(|| joined(moved[0], moved[1]));
    let support = std::array::from_fn(|k| match (fast[k], springs[k]) {
        (true, _) => Support::Fast,
        (false, stiffness) if stiffness != 0.0 => Support::Spring(stiffness),
        _ => Support::Free,
    });
    if at.is_none() {
        given.problem("`at_m` says where the node is: three plain numbers in brackets".into());
    }
    Some(Point { node: Node { at: at?, support }, force, moved })
}

/// The section that is written, whichever way.
fn section(given: &mut Given<'_>) -> Option<Section> {
    let area = given.maybe::<f64>("area_m2", Kind::Number);
    let seconds = given.numbers::<2>("second_moments_m4");
    let twist = given.maybe::<f64>("torsion_m4", Kind::Number);
    let diameters = given.numbers::<2>("diameters_m");
    match (area, seconds, twist, diameters) {
        (Some(area), Some([about_y, about_z]), Some(twist), None) => {
            Some(Section::Even { area, about_y, about_z, twist })
        }
        (None, None, None, Some([first, last])) => Some(Section::Round { first, last }),
        _ => {
            let what =
                "write `diameters_m` of both ends, or `area_m2`, `second_moments_m4` about y and z, and `torsion_m4`";
            given.problem(what.into());
            None
        }
    }
}

fn bar(given: &mut Given<'_>) -> Option<Bar> {
    let nodes = pair(given);
    let [young, shear] = [given.number::<f64>("young_pa", Kind::Number), given.number::<f64>("shear_pa", Kind::Number)];
    let section = section(given);
    let reference = given.numbers::<3>("reference").unwrap_or_default();
    let roll = given.maybe::<f64>("roll_rad", Kind::Number).unwrap_or(0.0);
    let released = [marked(given, "released_from"), marked(given, "released_to")];
    let notches = given.list("notches", |given| Some((given.numbers::<2>("span_m")?, self::section(given)?)));
    let mut loads = given.list("line_loads", line_load);
    loads.extend(given.list("point_loads", point_load));
    loads.extend(given.numbers::<3>("weight_n_m3").map(|on_volume| MemberLoad::Body { on_volume }));
    let stations = given.series("stations_m");
    let stretches = vec![Stretch { until: 1.0, section: section? }];
    let member = Member { nodes: nodes?, reference, roll, young: young?, shear: shear?, stretches, released };
    Some(Bar { member, notches, loads, stations })
}

fn pair(given: &mut Given<'_>) -> Option<[usize; 2]> {
    let nodes = [given.count("from", 1), given.count("to", 1)];
    let index = |node: Option<u64>| usize::try_from(node? - 1).ok();
    Some([index(nodes[0])?, index(nodes[1])?])
}

fn sense(given: &mut Given<'_>) -> Sense {
    match given.words("axes").as_slice() {
        [] | ["global"] => Sense::Global,
        ["projected"] => Sense::Projected,
        ["local"] => Sense::Local,
        _ => {
            given.problem("`axes` is \"global\", \"projected\" or \"local\"".into());
            Sense::Global
        }
    }
}

fn line_load(given: &mut Given<'_>) -> Option<MemberLoad> {
    let first = given.numbers::<3>("line_n_m");
    let last = given.numbers::<3>("line_to_n_m");
    let span = given.numbers::<2>("span_m");
    let sense = sense(given);
    if first.is_none() {
        given.problem("`line_n_m` says how large the load is: three plain numbers in brackets".into());
    }
    Some(MemberLoad::Line { span, first: first?, last: last.or(first)?, sense })
}

fn point_load(given: &mut Given<'_>) -> Option<MemberLoad> {
    let at = given.number::<f64>("at_m", Kind::Number);
    let force = joined(given.numbers("force_n"), given.numbers("moment_n_m"));
    let sense = sense(given);
    Some(MemberLoad::Point { at: at?, force, sense })
}

fn touch(given: &mut Given<'_>) -> Option<Touch> {
    let nodes = pair(given);
    let share = given.maybe::<f64>("share", Kind::Number).unwrap_or(0.5);
    let beside = given.numbers::<3>("beside").unwrap_or([0.0, 0.0, 1.0]);
    let stiffness = joined(given.numbers("stiffness_n_m"), given.numbers("turn_stiffness_n_m_rad"));
    Some(Touch { nodes: nodes?, share, beside, stiffness })
}
