//! What a trial of a ring found, as it is kept: plain SI numbers, each answer a list that begins with its name.

use serde_json::{Value, json};

use super::trial::{Answered, Tried};
use super::{Feet, Lowered, Raised, SecondOrder, Without};
use crate::units::{Force, Length, Moment};

pub(super) fn written(answer: &Answered) -> Value {
    match answer {
        Answered::Stage(found) => json!([
            "stage",
            tried(found, |found| {
                json!([found.poles, found.loose, found.loose_when_tied, found.on_prop.map(Force::in_n)])
            })
        ]),
        Answered::Lowered(feet, found) => json!([
            "lowered",
            word(*feet),
            tried(found, |found| match found {
                Lowered::Loose(pole) => json!(["loose", pole]),
                Lowered::Free(down) => json!(["free", down.in_m()]),
            })
        ]),
        Answered::Loss(pole, feet, found) => json!([
            "loss",
            pole,
            word(*feet),
            tried(found, |found| match found {
                Without::ComesDown(pole) => json!(["comes down", pole]),
                Without::Stands { moment, push, sag } => json!(["stands", moment.in_n_m(), push.in_n(), sag.in_m()]),
            })
        ]),
        Answered::Bent(at, feet, found) => {
            json!(["bent", at, word(*feet), tried(found, |found| { json!([found.moment, found.sag, found.buckling]) })])
        }
    }
}

pub(super) fn read(kept: &Value) -> Option<Answered> {
    let list = kept.as_array()?;
    match (list.first()?.as_str()?, &list[1..]) {
        ("stage", [found]) => Some(Answered::Stage(untried(found, stage)?)),
        ("lowered", [feet, found]) => Some(Answered::Lowered(self::feet(feet)?, untried(found, lowered)?)),
        ("loss", [pole, feet, found]) => {
            Some(Answered::Loss(place(pole)?, self::feet(feet)?, untried(found, without)?))
        }
        ("bent", [at, feet, found]) => Some(Answered::Bent(place(at)?, self::feet(feet)?, untried(found, bent)?)),
        _ => None,
    }
}

fn tried<T>(found: &Tried<T>, of: impl FnOnce(&T) -> Value) -> Value {
    match found {
        Ok(found) => of(found),
        Err(why) => json!({ "not known": why }),
    }
}

fn untried<T>(kept: &Value, of: impl FnOnce(&[Value]) -> Option<T>) -> Option<Tried<T>> {
    match kept.get("not known") {
        Some(why) => Some(Err(why.as_str()?.to_owned())),
        None => of(kept.as_array()?).map(Ok),
    }
}

fn stage(list: &[Value]) -> Option<Raised> {
    let [poles, loose, loose_when_tied, on_prop] = list else { return None };
    Some(Raised {
        poles: place(poles)?,
        loose: maybe(loose, place)?,
        loose_when_tied: maybe(loose_when_tied, place)?,
        on_prop: maybe(on_prop, Value::as_f64)?.map(Force::n),
    })
}

fn lowered(list: &[Value]) -> Option<Lowered> {
    match (list.first()?.as_str()?, &list[1..]) {
        ("loose", [pole]) => Some(Lowered::Loose(place(pole)?)),
        ("free", [down]) => Some(Lowered::Free(Length::m(down.as_f64()?))),
        _ => None,
    }
}

fn without(list: &[Value]) -> Option<Without> {
    match (list.first()?.as_str()?, &list[1..]) {
        ("comes down", [pole]) => Some(Without::ComesDown(place(pole)?)),
        ("stands", [moment, push, sag]) => Some(Without::Stands {
            moment: Moment::n_m(moment.as_f64()?),
            push: Force::n(push.as_f64()?),
            sag: Length::m(sag.as_f64()?),
        }),
        _ => None,
    }
}

fn bent(list: &[Value]) -> Option<SecondOrder> {
    let [moment, sag, buckling] = list else { return None };
    Some(SecondOrder { moment: moment.as_f64()?, sag: sag.as_f64()?, buckling: maybe(buckling, Value::as_f64)? })
}

/// A value that may be none; `None` where it is neither.
fn maybe<T>(value: &Value, of: impl FnOnce(&Value) -> Option<T>) -> Option<Option<T>> {
    if value.is_null() { Some(None) } else { of(value).map(Some) }
}

fn place(value: &Value) -> Option<usize> {
    usize::try_from(value.as_u64()?).ok()
}

fn word(feet: Feet) -> &'static str {
    match feet {
        Feet::Held => "held",
        Feet::Sliding => "sliding",
    }
}

fn feet(value: &Value) -> Option<Feet> {
    match value.as_str()? {
        "held" => Some(Feet::Held),
        "sliding" => Some(Feet::Sliding),
        _ => None,
    }
}
