//! The routes: what can be asked, and how it is answered.

use std::convert::Infallible;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use axum::extract::{DefaultBodyLimit, Path, Query, State};
use axum::http::header::{CACHE_CONTROL, CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::http::{HeaderName, StatusCode};
use axum::middleware::from_fn_with_state;
use axum::response::sse::{self, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use axum::routing::{get, post};
use axum::{Json, Router};
use engine::units::Length;
use futures_util::stream::Stream;
use press::drawing::Drawing;
use press::paper::Paper;
use serde::Deserialize;
use tokio::task::spawn_blocking;

use super::beside::Other;
use super::book_job::BookJob;
use super::events::Events;
use super::reason::reason;
use super::session::Session;
use super::standing::{Standing, computed};
use super::studies::Lanes;
use super::turn::Turns;
use super::wire::{BuildFile, Change, Event, Kept, Listed, Look, Open};
use super::{assets, guard};

/// The largest request, in bytes.
const LARGEST: usize = 2 * 1024 * 1024;
/// The header of the model that names the parts without a body, each with why: a JSON list.
const LEFT_OUT: HeaderName = HeaderName::from_static("left-out");
/// How far a chord of the model keeps from its curve.
const CHORD: Length = Length::mm(5.0);

/// All that the routes share.
#[derive(Clone, Debug)]
pub struct Served {
    turns: Turns,
    events: Events,
    book: BookJob,
    lanes: Lanes,
    /// The house before the last change.
    before: Arc<Mutex<Option<Arc<Standing>>>>,
}

impl Served {
    /// Serves a sitting.
    #[must_use]
    pub fn new(session: Session) -> Served {
        Served {
            turns: Turns::new(session),
            events: Events::default(),
            book: BookJob::default(),
            lanes: Lanes::default(),
            before: Arc::default(),
        }
    }

    /// The queue before the session.
    #[must_use]
    pub fn turns(&self) -> &Turns {
        &self.turns
    }
}

/// The routes of a sitting at a port.
pub fn router(served: Served, port: u16) -> Router {
    Router::new()
        .route("/look", post(look))
        .route("/events", get(events))
        .route("/reason", get(why))
        .route("/beside", get(beside))
        .route("/kept", get(kept))
        .route("/keep", post(keep))
        .route("/builds", get(builds))
        .route("/open", post(open))
        .route("/house.glb", get(model))
        .route("/drawings", get(drawings))
        .route("/drawing/{name}", get(drawing))
        .route("/book", post(book))
        .route("/book/stop", post(stop))
        .route("/book.pdf", get(pdf))
        .route("/study/{name}", post(study))
        .route("/study/{name}/stop", post(stop_study))
        .route("/text", get(text))
        .fallback(get(assets::asset))
        .layer(DefaultBodyLimit::max(LARGEST))
        .layer(from_fn_with_state(port, guard::guard))
        .with_state(served)
}

/// An answer in words that is none.
type Refusal = (StatusCode, String);

fn refusal(status: StatusCode, words: &str) -> Refusal {
    (status, words.to_owned())
}

fn no_house() -> Refusal {
    refusal(StatusCode::NOT_FOUND, "No build is open, or none that reads.")
}

/// Runs slow work where it keeps nobody else waiting.
async fn aside<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, Refusal> {
    spawn_blocking(work)
        .await
        .map_err(|_| refusal(StatusCode::INTERNAL_SERVER_ERROR, "The program failed at this; the build is as it was."))
}

async fn standing(served: &Served) -> Result<Arc<Standing>, Refusal> {
    served.turns.turn().await.standing().ok_or_else(no_house)
}

fn locked(before: &Mutex<Option<Arc<Standing>>>) -> MutexGuard<'_, Option<Arc<Standing>>> {
    before.lock().unwrap_or_else(PoisonError::into_inner)
}

async fn look(State(served): State<Served>, Json(asked): Json<Look>) -> Result<Response, Refusal> {
    let Some(mut session) = served.turns.look(&asked).await else {
        return Err(refusal(StatusCode::CONFLICT, "A newer one of this page came meanwhile."));
    };
    let by = asked.page.clone().unwrap_or_default();
    let is_begin = !asked.moving && matches!(asked.change, Some(Change::Begin { .. }));
    let (lanes, told) = (served.lanes.clone(), served.events.clone());
    // To throw a whole house away takes a while: it is done beside the next one's computation, when the page has painted.
    let before = Arc::clone(&served.before);
    drop(spawn_blocking(move || drop(locked(&before).take())));
    let (mut frame, changed, last) = aside(move || {
        let before = (session.revision(), session.standing());
        let mut frame = session.look(&asked);
        let changed = (session.revision() != before.0).then(|| session.revision());
        let (standing, shelf) = (session.standing(), session.shelf());
        if is_begin && changed.is_some() {
            lanes.forget();
        }
        // What another look or the disk changed is followed by this one; while a finger is down the design is not settled.
        if let Some(standing) = standing.filter(|_| !asked.moving) {
            if !session.is_held() {
                lanes.follow(&standing, shelf.as_ref(), &told);
            }
            frame.studies = lanes.shown(&asked.leaf, &standing, shelf.as_ref());
        }
        (frame, changed, before.1)
    })
    .await?;
    *locked(&served.before) = last;
    if is_begin && changed.is_some() {
        served.book.forget(&served.events);
    }
    frame.book = served.book.revision();
    if let Some(revision) = changed {
        served.events.tell(Event::Changed { revision, by });
    }
    Ok(([(CACHE_CONTROL, "no-store")], Json(frame)).into_response())
}

async fn events(State(served): State<Served>) -> Sse<impl Stream<Item = Result<sse::Event, Infallible>>> {
    Sse::new(served.events.stream(&served.turns)).keep_alive(KeepAlive::default())
}

#[derive(Deserialize)]
struct Asked {
    path: String,
}

async fn why(State(served): State<Served>, Query(asked): Query<Asked>) -> Result<Response, Refusal> {
    let standing = served.turns.turn().await.explained().ok_or_else(no_house)?;
    match reason(&standing, &asked.path) {
        Some(reason) => Ok(Json(reason).into_response()),
        None => Err((StatusCode::NOT_FOUND, format!("There is no row called {}.", asked.path))),
    }
}

async fn beside(State(served): State<Served>, Query(other): Query<Other>) -> Result<Response, Refusal> {
    let session = served.turns.turn().await;
    match aside(move || session.beside(&other)).await? {
        Ok(beside) => Ok(Json(beside).into_response()),
        Err(problems) => {
            let words =
                problems.iter().map(|problem| format!("{} {}; {}", problem.path, problem.message, problem.hint));
            let words = words.map(|words| words.trim().to_owned()).collect::<Vec<_>>().join("\n");
            Err((StatusCode::UNPROCESSABLE_ENTITY, words))
        }
    }
}

async fn kept(State(served): State<Served>) -> Json<Vec<Kept>> {
    Json(served.turns.turn().await.kept())
}

async fn keep(State(served): State<Served>) -> Result<Json<Kept>, Refusal> {
    let kept = served.turns.turn().await.keep();
    kept.map(Json).map_err(|why| (StatusCode::CONFLICT, why))
}

async fn builds(State(served): State<Served>) -> Json<Vec<BuildFile>> {
    Json(served.turns.turn().await.builds())
}

async fn open(State(served): State<Served>, Json(asked): Json<Open>) -> Result<StatusCode, Refusal> {
    let mut session = served.turns.turn().await;
    let lanes = served.lanes.clone();
    let opened = aside(move || {
        session.open_named(&asked.file)?;
        // Nobody looks before what was found of the last build is forgotten.
        lanes.forget();
        Ok(session.revision())
    });
    let revision = opened.await?.map_err(|why: String| (StatusCode::NOT_FOUND, why))?;
    served.book.forget(&served.events);
    served.events.tell(Event::Changed { revision, by: "open".to_owned() });
    Ok(StatusCode::NO_CONTENT)
}

async fn model(State(served): State<Served>) -> Result<Response, Refusal> {
    let (text, system) = {
        let session = served.turns.turn().await;
        let standing = session.standing().ok_or_else(no_house)?;
        (standing.text().to_owned(), session.system())
    };
    let made = aside(move || {
        let house = computed(&text, system).ok()?;
        let engine::solids::Solids { mut bodies, left_out } = house.bodies(CHORD);
        bodies.extend(house.roof_bodies());
        let left_out: Vec<String> = left_out.iter().map(|(path, why)| format!("{path}: {why}")).collect();
        Some((press::gltf::glb(house.name(), &bodies), left_out))
    });
    let (glb, left_out) = made.await?.ok_or_else(no_house)?;
    let said = [
        (CONTENT_TYPE, "model/gltf-binary".to_owned()),
        (CACHE_CONTROL, "no-store".to_owned()),
        (LEFT_OUT, in_ascii(&left_out)),
    ];
    Ok((said, glb).into_response())
}

/// A list as JSON that a header may hold.
fn in_ascii(list: &[String]) -> String {
    let json = serde_json::to_string(list).unwrap_or_default();
    let plain = json.chars().map(|letter| match letter {
        ' '..='~' => letter.to_string(),
        other => other.encode_utf16(&mut [0; 2]).iter().map(|unit| format!("\\u{unit:04x}")).collect(),
    });
    plain.collect()
}

async fn drawings(State(served): State<Served>) -> Result<Json<Vec<Listed>>, Refusal> {
    let standing = standing(&served).await?;
    let listed = |drawing: Drawing| Listed { name: drawing.name, title: drawing.title };
    let drawn = aside(move || Some(on_paper(&standing)?.into_iter().map(listed).collect()));
    Ok(Json(drawn.await?.ok_or_else(no_house)?))
}

async fn drawing(State(served): State<Served>, Path(file): Path<String>) -> Result<Response, Refusal> {
    let standing = standing(&served).await?;
    let name = file.strip_suffix(".svg").unwrap_or(&file).to_owned();
    let drawn = aside(move || {
        let drawing = on_paper(&standing)?.into_iter().find(|drawing| drawing.name == name)?;
        Some(drawing.scaled.svg.to_string())
    });
    let none = || (StatusCode::NOT_FOUND, format!("This house has no drawing called {file}."));
    let svg = drawn.await?.ok_or_else(none)?;
    Ok(([(CONTENT_TYPE, "image/svg+xml"), (CACHE_CONTROL, "no-store")], svg).into_response())
}

/// Every drawing as the book has it.
fn on_paper(standing: &Standing) -> Option<Vec<Drawing>> {
    Some(press::drawing::all(&standing.answers, standing.pictures()?, Paper::of(standing.answers.system)))
}

async fn book(State(served): State<Served>) -> Result<StatusCode, Refusal> {
    let (standing, shelf, revision) = {
        let session = served.turns.turn().await;
        (session.standing().ok_or_else(no_house)?, session.shelf(), session.revision())
    };
    served.book.start(standing, shelf, revision, &served.events);
    Ok(StatusCode::ACCEPTED)
}

async fn stop(State(served): State<Served>) -> StatusCode {
    served.book.stop(&served.events);
    StatusCode::NO_CONTENT
}

async fn pdf(State(served): State<Served>) -> Result<Response, Refusal> {
    let none = || refusal(StatusCode::NOT_FOUND, "No book has been made yet.");
    let pdf = served.book.pdf().ok_or_else(none)?;
    let file = served.turns.turn().await.file_stem();
    // The name of a file may hold signs that a header may not.
    let plain = file.chars().filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-').collect::<String>();
    let named = format!("inline; filename=\"{plain}.pdf\"");
    let said = [
        (CONTENT_TYPE, "application/pdf".to_owned()),
        (CACHE_CONTROL, "no-store".to_owned()),
        (CONTENT_DISPOSITION, named),
    ];
    Ok((said, pdf).into_response())
}

async fn study(State(served): State<Served>, Path(name): Path<String>) -> Result<StatusCode, Refusal> {
    // The session is held until the lane has it: inputs of an older design come before newer ones.
    let session = served.turns.turn().await;
    let (standing, shelf) = (session.standing().ok_or_else(no_house)?, session.shelf());
    if served.lanes.start(&name, &standing, shelf.as_ref(), &served.events) {
        Ok(StatusCode::ACCEPTED)
    } else {
        Err((StatusCode::NOT_FOUND, format!("This house has nothing to study called {name}.")))
    }
}

async fn stop_study(State(served): State<Served>, Path(name): Path<String>) -> StatusCode {
    served.lanes.stop(&name, &served.events);
    StatusCode::NO_CONTENT
}

async fn text(State(served): State<Served>) -> Response {
    let text = served.turns.turn().await.text().to_owned();
    ([(CONTENT_TYPE, "text/plain; charset=utf-8"), (CACHE_CONTROL, "no-store")], text).into_response()
}

#[cfg(test)]
mod tests {
    use super::in_ascii;

    #[test]
    fn a_list_in_a_header_is_plain_and_reads_back() {
        let list = ["earth.lehmhügel: a \"gap\" of 2 m² 𝄞\n".to_owned(), String::new()];
        let told = in_ascii(&list);
        assert!(told.bytes().all(|byte| (b' '..=b'~').contains(&byte)), "{told}");
        assert_eq!(serde_json::from_str::<Vec<String>>(&told).unwrap(), list);
        assert_eq!(in_ascii(&[]), "[]");
    }
}
