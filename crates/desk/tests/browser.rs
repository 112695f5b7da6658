//! The desk as a teacher meets it: in a browser, with keyboard, pointer, without script, and held to WCAG.
//!
//! Left out, with a line that says so, where chromium and chromedriver are not installed.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

#[path = "browser/room.rs"]
mod room;

use fantoccini::Locator;
use fantoccini::key::Key;
use room::{Browser, Room, in_a_room};

const TRAILER: &str = include_str!("../../../shelf/01-timber-trailer.txt");

fn key(key: Key) -> String {
    char::from(key).to_string()
}

#[tokio::test(flavor = "multi_thread")]
async fn answers_follow_the_text_while_it_is_typed() {
    in_a_room(Browser::default(), |room: Room| async move {
        room.go("/").await;
        room.outcome("No question yet").await;
        room.write("#question", TRAILER.trim_end()).await;
        // 0.75 m s^-2 and 1300 N: the closed form beside the question on the shelf.
        room.outcome("(a) 0.75 m s⁻²; (b) 1300 N").await;
        assert_eq!(room.focus().await, "question", "typing is not disturbed");
        assert!(room.text("#sheet").await.contains("Whole system"));
        room.until("document.querySelector('#live').textContent.startsWith('Answered.')").await;
        room.picture("typed").await;

        // Answers go as soon as the text no longer carries them.
        room.write("#question", " The tractor is rather xyzzy.").await;
        room.outcome("Not answered.").await;
        room.until("document.querySelector('#live').textContent.startsWith('Not answered.')").await;
        assert!(room.text("#sheet").await.contains("[unread]"));
        room
    })
    .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_changed_number_changes_the_text_and_its_answers() {
    in_a_room(Browser::default(), |room: Room| async move {
        room.go("/shelf/01-timber-trailer").await;
        room.until("document.documentElement.classList.contains('scripted')").await;
        // By hand: (3900 - 900)/3000 = 1 and 400 + 1200*1 = 1600.
        room.rewrite("#number-5", "3900").await;
        room.outcome("(a) 1 m s⁻²; (b) 1600 N").await;
        assert!(room.value("#question").await.contains("driving force of 3900 N."));
        assert_eq!(room.focus().await, "number-5");

        // A shorter number before it: later places move along. (3900 - 900)/(800 + 1200) = 1.5; 400 + 1200*1.5 = 2200.
        room.rewrite("#number-1", "800").await;
        room.outcome("(a) 1.5 m s⁻²; (b) 2200 N").await;
        assert!(room.value("#question").await.contains("of mass 800 kg tows"));

        // The up key and the button step: (4500 - 900)/2000 = 1.8.
        room.write("#number-5", &key(Key::Up).repeat(3)).await;
        for _ in 0..3 {
            room.click("#number-5 + .step").await;
        }
        room.outcome("(a) 1.8 m s⁻²; (b) 2560 N").await;
        assert_eq!(room.value("#number-5").await, "4500");

        room.rewrite("#number-2", "-5").await;
        assert!(room.text("#fault-2").await.contains("Write a number without a sign"));
        let input = room.client.find(Locator::Css("#number-2")).await.unwrap();
        assert_eq!(input.attr("aria-invalid").await.unwrap().as_deref(), Some("true"));
        assert!(
            room.value("#question").await.contains("of mass 1200 kg"),
            "the question keeps the last number"
        );
        room.check_access("an explained number").await;
        room.rewrite("#number-2", "1200").await;
        assert_eq!(room.text("#fault-2").await, "");

        room.click("#restore").await;
        room.outcome("(a) 0.75 m s⁻²; (b) 1300 N").await;
        assert_eq!(room.value("#question").await, TRAILER.trim_end());
        room
    })
    .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn questions_of_the_shelf_are_found_opened_and_answered() {
    in_a_room(Browser::default(), |room: Room| async move {
        room.go("/").await;
        room.until("document.documentElement.classList.contains('scripted')").await;
        let all = room.eval("document.querySelectorAll('#shelf-list li').length").await;
        room.write("#find", "buckets").await;
        room.until("[...document.querySelectorAll('#shelf-list li')].some(li => li.textContent === 'Buckets over a pulley')").await;
        room.until("document.querySelector('#live').textContent.endsWith('found.')").await;
        assert_ne!(room.eval("document.querySelectorAll('#shelf-list li').length").await, all);
        room.client.find(Locator::LinkText("Buckets over a pulley")).await.unwrap().click().await.unwrap();
        room.outcome("Answered.").await;
        assert_eq!(room.text("#shelf [aria-current]").await, "Buckets over a pulley");
        // The answers beside the questions on the shelf.
        room.go("/shelf/14-masses-m-and-3m").await;
        room.outcome("Answered.").await;
        room.picture("pulley").await;
        room
    })
    .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn what_belongs_together_lights_up_by_pointer_and_by_keyboard() {
    in_a_room(Browser::default(), |room: Room| async move {
        room.go("/shelf/01-timber-trailer").await;
        room.until("document.documentElement.classList.contains('scripted')").await;
        let reference = "document.querySelector('.told[data-tie] + .ref a')";
        room.eval(&format!("{reference}.focus()")).await;
        room.until("document.querySelectorAll('#sheet .lit').length >= 2").await;
        let ties = room.eval("new Set([...document.querySelectorAll('#sheet .lit')].map(e => e.getAttribute('data-tie'))).size").await;
        assert_eq!(ties, 1, "one force at a time");
        room.eval(&format!("{reference}.blur()")).await;
        room.until("document.querySelectorAll('#sheet .lit').length === 0").await;
        room
    })
    .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_keyboard_alone_reaches_everything() {
    in_a_room(Browser::default(), |room: Room| async move {
        room.go("/").await;
        room.until("document.documentElement.classList.contains('scripted')").await;
        room.press(&key(Key::Tab)).await;
        assert_eq!(room.eval("document.activeElement.textContent").await, "To the question");
        room.press(&key(Key::Enter)).await;
        room.until("document.activeElement.id === 'question'").await;
        let outline = "getComputedStyle(document.activeElement).outlineStyle";
        assert_eq!(room.eval(outline).await, "solid", "the focus is seen");
        room.press(TRAILER.trim_end()).await;
        room.outcome("Answered.").await;
        let mut met = Vec::new();
        for _ in 0..9 {
            room.press(&key(Key::Tab)).await;
            assert_ne!(room.eval(outline).await, "none", "the focus is seen");
            met.push(room.focus().await);
        }
        let ids: Vec<&str> = met.iter().map(String::as_str).collect();
        let order = ["work", "pdf", "number-1", "number-2", "number-3", "number-4", "number-5"];
        assert_eq!(ids.get(..7), Some(order.as_slice()), "in the order of the page");
        assert!(ids.get(7).is_some_and(|id| id.starts_with("leaf")), "{ids:?}");
        room
    })
    .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn nothing_written_is_lost() {
    in_a_room(Browser::default(), |mut room: Room| async move {
        room.go("/").await;
        room.until("document.documentElement.classList.contains('scripted')").await;
        room.write("#question", "My own words about a winch.").await;
        room.outcome("Not answered.").await;
        assert_eq!(room.value("#question").await, "My own words about a winch.");

        // Reading a question on the shelf in between, and coming back.
        room.go("/shelf/01-timber-trailer").await;
        room.outcome("Answered.").await;
        room.go("/").await;
        room.until("document.querySelector('#question').value === 'My own words about a winch.'").await;
        room.outcome("Not answered.").await;

        room.close_desk().await;
        room.write("#question", " And a barge.").await;
        room.outcome("The desk does not answer.").await;
        assert_eq!(room.value("#question").await, "My own words about a winch. And a barge.");
        room.until("document.querySelector('#sheet .earlier')").await;
        assert_eq!(
            room.eval("sessionStorage.getItem('desk /')").await,
            "My own words about a winch. And a barge."
        );
        room
    })
    .await;
}

const GREASY: &str = "A crate of mass 5 kg is pulled along a horizontal floor by a horizontal force of 20 N. The floor is \
    greasy. Find the acceleration of the crate.";

#[tokio::test(flavor = "multi_thread")]
async fn a_click_mends_the_question_and_another_undoes_it() {
    in_a_room(Browser::default(), |room: Room| async move {
        room.go("/").await;
        room.write("#question", GREASY).await;
        room.outcome("Not answered.").await;
        room.until("document.querySelector('#mend button[name=mend]')").await;
        room.check_access("a question to mend").await;
        room.picture("mend").await;
        room.click("#mend button[name=mend]").await;
        // By hand: 20/5 = 4.
        room.outcome("Answered. 4 m s⁻²").await;
        assert!(room.value("#question").await.contains("The floor is smooth."));
        room.until("document.activeElement.id === 'undo'").await;
        room.picture("mended").await;
        room.click("#undo").await;
        room.outcome("Not answered.").await;
        assert_eq!(room.value("#question").await, GREASY);
        room
    })
    .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_phrase_is_ignored_by_a_click_and_read_again_by_another() {
    in_a_room(Browser { width: 390, height: 844, script: true }, |room: Room| async move {
        room.go("/").await;
        room.write("#question", &GREASY.replace("a horizontal floor", "a smooth horizontal floor")).await;
        room.outcome("Not answered.").await;
        room.check_width("a question to mend").await;
        room.picture("narrow-390-mend").await;
        room.click("#mend button[name=ignore]").await;
        room.outcome("Answered. 4 m s⁻²").await;
        assert!(room.text("#mend").await.contains("Ignored at your wish: “greasy”"));
        assert!(room.text("#sheet").await.contains("Ignored at your wish"));
        room.check_access("an ignored phrase").await;
        room.check_width("an ignored phrase").await;
        room.picture("narrow-390-ignored").await;
        // Another change of the text does not forget it.
        room.rewrite("#number-2", "30").await;
        room.outcome("Answered. 6 m s⁻²").await;
        room.click("#mend button[name=heed]").await;
        room.outcome("Not answered.").await;
        room
    })
    .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn the_page_works_without_script() {
    let browser = Browser { script: false, ..Browser::default() };
    in_a_room(browser, |room: Room| async move {
        room.go("/").await;
        room.write("#question", TRAILER.trim_end()).await;
        room.click("#work").await;
        room.client.wait().for_element(Locator::Css("#outcome.answered")).await.unwrap();
        assert!(room.text("#outcome").await.contains("(a) 0.75 m s⁻²; (b) 1300 N"));
        assert_eq!(room.value("#question").await, TRAILER.trim_end());
        room.rewrite("#number-5", "3900").await;
        room.click("#numbers > button").await;
        room.client.wait().for_element(Locator::Css("#number-5[value='3900']")).await.unwrap();
        assert!(room.text("#outcome").await.contains("(a) 1 m s⁻²; (b) 1600 N"));

        room.go("/").await;
        room.write("#question", GREASY).await;
        room.click("#work").await;
        room.client.wait().for_element(Locator::Css("#mend button[name=mend]")).await.unwrap();
        room.click("#mend button[name=mend]").await;
        room.client.wait().for_element(Locator::Css("#outcome.answered")).await.unwrap();
        assert!(room.value("#question").await.contains("The floor is smooth."));
        room.click("#undo").await;
        room.client.wait().for_element(Locator::Css("#outcome.refused")).await.unwrap();
        assert_eq!(room.value("#question").await, GREASY);
        room
    })
    .await;
}

#[tokio::test(flavor = "multi_thread")]
async fn axe_finds_nothing_on_any_page() {
    in_a_room(Browser::default(), |room: Room| async move {
        for path in [
            "/",
            "/nowhere",
            "/shelf/01-timber-trailer",
            "/shelf/13-buckets-over-a-pulley",
            "/shelf/28-cradle-and-counterweight",
        ] {
            room.go(path).await;
            room.check_access(path).await;
            room.picture(&format!("wide{}", path.replace('/', "-"))).await;
        }
        room.go("/").await;
        room.write("#question", "A cat sits on a mat. How heavy is it?").await;
        room.outcome("Not answered.").await;
        room.check_access("a refusal").await;
        room.picture("wide-refused").await;
        room
    })
    .await;
}

/// WCAG 2.2, success criterion 1.4.10: no scrolling in two directions at 320 CSS pixels.
#[tokio::test(flavor = "multi_thread")]
async fn a_narrow_window_needs_no_sideways_scrolling() {
    for (width, height) in [(320, 700), (390, 844)] {
        in_a_room(Browser { width, height, script: true }, |room: Room| async move {
            for path in [
                "/",
                "/nowhere",
                "/shelf/01-timber-trailer",
                "/shelf/14-masses-m-and-3m",
                "/shelf/28-cradle-and-counterweight",
            ] {
                room.go(path).await;
                room.check_width(path).await;
                room.check_access(path).await;
                room.picture(&format!("narrow-{width}{}", path.replace('/', "-"))).await;
            }
            room
        })
        .await;
    }
}
