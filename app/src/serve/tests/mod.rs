//! The routes as a browser asks them, on a folder of their own.

mod changes;
mod disk;
mod routes;
mod studies;

use std::fs;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};

use axum::Router;
use axum::body::Body;
use axum::http::{Request, StatusCode};
use http_body_util::BodyExt;
use serde_json::{Value, json};
use tower::ServiceExt;

use super::routes::{Served, router};
use super::session::Session;

const PORT: u16 = 4321;
const RING: &str = include_str!("../../../../builds/plain-ring/plain-ring.loam.toml");
const TANSY: &str = include_str!("../../../../builds/tansy-bank/tansy-bank.loam.toml");

/// A served build in a folder that goes when it is dropped.
struct Desk {
    folder: PathBuf,
    served: Served,
    router: Router,
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.folder);
    }
}

impl Desk {
    /// A folder with `house.loam.toml` in it, open; an empty text leaves the folder empty.
    fn with(text: &str) -> Desk {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let name = format!("loamwright-{}-{}", std::process::id(), COUNT.fetch_add(1, Ordering::SeqCst));
        let folder = std::env::temp_dir().join(name);
        fs::create_dir_all(&folder).unwrap();
        let mut session = Session::new(&folder, None);
        if !text.is_empty() {
            fs::write(folder.join("house.loam.toml"), text).unwrap();
            session.open(&folder.join("house.loam.toml")).unwrap();
        }
        let served = Served::new(session);
        let router = router(served.clone(), PORT);
        Desk { folder, served, router }
    }

    fn file(&self) -> PathBuf {
        self.folder.join("house.loam.toml")
    }

    fn on_disk(&self) -> String {
        fs::read_to_string(self.file()).unwrap()
    }

    async fn ask(&self, method: &str, uri: &str, body: Option<Value>) -> (StatusCode, Vec<u8>) {
        let request = Request::builder().method(method).uri(uri).header("host", format!("127.0.0.1:{PORT}"));
        let request = request.header("content-type", "application/json");
        let body = body.map_or_else(Body::empty, |body| Body::from(body.to_string()));
        let response = self.router.clone().oneshot(request.body(body).unwrap()).await.unwrap();
        let status = response.status();
        (status, response.into_body().collect().await.unwrap().to_bytes().to_vec())
    }

    async fn read(&self, uri: &str) -> Value {
        let (status, bytes) = self.ask("GET", uri, None).await;
        assert_eq!(status, StatusCode::OK, "{}", String::from_utf8_lossy(&bytes));
        serde_json::from_slice(&bytes).unwrap()
    }

    /// Looks at a leaf as page `a`, with a change or none.
    async fn look(&self, leaf: &str, since: Option<u64>, change: Value, moving: bool) -> Value {
        self.look_as("a", leaf, since, change, moving).await
    }

    async fn look_as(&self, page: &str, leaf: &str, since: Option<u64>, change: Value, moving: bool) -> Value {
        let look = json!({
            "leaf": leaf, "room_mm": [200.0, 150.0], "since": since, "change": change, "moving": moving, "page": page,
        });
        let (status, bytes) = self.ask("POST", "/look", Some(look)).await;
        assert_eq!(status, StatusCode::OK, "{}", String::from_utf8_lossy(&bytes));
        serde_json::from_slice(&bytes).unwrap()
    }

    async fn set(&self, path: &str, to: &str) -> Value {
        self.look("walls", None, json!({"kind": "set", "path": path, "to": to}), false).await
    }
}

fn shown<'a>(frame: &'a Value, path: &str) -> Option<&'a str> {
    let value = frame["values"].as_array().unwrap().iter().find(|value| value[0] == path).map(|value| &value[1]);
    let row = || frame["rows"].as_array().unwrap().iter().find(|row| row["path"] == path).map(|row| &row["shown"]);
    value.or_else(row)?.as_str()
}
