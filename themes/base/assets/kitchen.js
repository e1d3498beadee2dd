/* A recipe's page in, the page at the stove out: ticks, a screen that stays awake, timers, the choice of paper.

   What it remembers stands in the browser's storage under the page's path, for all pages opened from a folder
   share one storage. Without this script the page lacks nothing but these controls. */
(function () {
  'use strict';

  var kitchen = document.querySelector('.kitchen');
  if (!kitchen) return;
  var told = kitchen.querySelector('.told');
  var title = document.title;
  var key = 'kitchen ' + location.pathname.replace(/index\.html$/, '');
  var memory = {};
  var forgets = false;
  var ticks = [];
  var timers = [];
  var audio = null;

  function all(selector, within) {
    return Array.prototype.slice.call((within || document).querySelectorAll(selector));
  }

  function make(name, kind) {
    var made = document.createElement(name);
    made.className = kind;
    if (name === 'button') made.type = 'button';
    return made;
  }

  function words(element) {
    return element.textContent.replace(/\s+/g, ' ').trim();
  }

  function tell(news) {
    told.textContent = news + (forgets ? ' This browser remembers nothing of it when the page is closed.' : '');
  }

  /* Memory. Read again before each change: the same page may be open twice. */

  function read() {
    var kept = memory;
    try {
      kept = JSON.parse(localStorage.getItem(key)) || {};
    } catch (refused) { /* no storage, or spoilt: what this page knows serves */ }
    return { ticks: kept.ticks || {}, timers: kept.timers || {} };
  }

  function change(how) {
    memory = read();
    how(memory);
    try {
      localStorage.setItem(key, JSON.stringify(memory));
    } catch (refused) {
      forgets = true;
    }
  }

  /* Ticks. Each holds for the scale at which it was made: salt weighed for four is not salt weighed for forty. */

  var scaled = document.querySelector('[data-scale-words]');

  function scale() {
    return scaled && words(scaled) || 'as written';
  }

  /* Exact, and with the water in the vessel: what was weighed for another setting is not weighed for this one. */
  function setting() {
    return document.documentElement.getAttribute('data-scale') || '1';
  }

  function address() {
    var asked = document.documentElement.getAttribute('data-asked');
    return location.href.split('#')[0] + (asked ? '#' + asked : '');
  }

  function addTick(id, at, line) {
    var box = make('input', 'tick');
    box.type = 'checkbox';
    line.id = line.id || 'tick_' + ticks.length; /* no other id of the page holds an underscore */
    box.setAttribute('aria-labelledby', line.id);
    box.addEventListener('change', function () {
      change(function (kept) {
        if (box.checked) kept.ticks[id] = setting();
        else delete kept.ticks[id];
      });
      if (forgets) tell('Ticked.');
    });
    at.insertBefore(box, at.firstChild);
    ticks.push({ id: id, box: box });
  }

  function showTicks() {
    var kept = read().ticks;
    ticks.forEach(function (one) {
      one.box.checked = kept[one.id] === setting();
    });
  }

  all('.ingredients li, .weigh tbody tr').forEach(function (line) {
    addTick(line.id, line.querySelector('th') || line, line);
  });
  /* A step or a stage has no name of its own: its number holds as long as the recipe has as many. */
  all('.method ol > li').forEach(function (step, index, steps) {
    var first = step.firstElementChild;
    var isLoose = first && first.tagName === 'P';
    addTick('step ' + index + ' of ' + steps.length, isLoose ? first : step, step);
  });
  all('.stages > li').forEach(function (stage, index, stages) {
    var name = stage.querySelector('.name');
    var id = words(name) + ' ' + index + ' of ' + stages.length;
    addTick('stage ' + id, name, stage.querySelector('.stage'));
    addTimer(id, stage, words(name));
  });
  new MutationObserver(showTicks).observe(document.documentElement, { attributeFilter: ['data-scale'] });

  kitchen.querySelector('.clear').addEventListener('click', function () {
    change(function (kept) {
      kept.ticks = {};
    });
    showTicks();
    tell('All ticks are cleared.');
  });

  /* Timers. A range runs to its low end, says so, and runs on to its high end. What counts is the clock, not the beats. */

  function addTimer(id, stage, name) {
    var length = stage.querySelector('.length[data-minutes]');
    if (!length) return;
    var minutes = length.dataset.minutes.split('-').map(Number);
    var row = make('div', 'timing');
    var one = { id: id, name: name, length: words(length), low: minutes[0], high: minutes[minutes.length - 1] };
    one.over = '';
    one.button = row.appendChild(make('button', 'timer'));
    one.output = row.appendChild(make('output', 'timer'));
    one.output.setAttribute('aria-live', 'off');
    one.button.addEventListener('click', function () {
      if (one.run) stop(one);
      else start(one);
    });
    stage.querySelector('.stage').insertAdjacentElement('afterend', row);
    timers.push(one);
  }

  function keep(one, run, over) {
    one.run = run;
    one.over = over || '';
    change(function (kept) {
      if (run) kept.timers[one.id] = run;
      else delete kept.timers[one.id];
    });
    show(one);
  }

  function start(one) {
    var now = Date.now();
    wakeSound();
    keep(one, { low: now + one.low * 60000, high: now + one.high * 60000, passed: one.low === one.high });
    tell(one.name + ': the timer runs, ' + one.length + (one.run.passed ? '.' : ', to the low end first.'));
  }

  function stop(one) {
    keep(one, null);
    tell(one.name + ': the timer is stopped.');
  }

  function clock(milliseconds) {
    var seconds = Math.ceil(milliseconds / 1000);
    return [seconds / 3600, seconds / 60 % 60, seconds % 60].map(function (part, place) {
      return (place && part < 10 ? '0' : '') + Math.floor(part);
    }).join(':');
  }

  function show(one) {
    var run = one.run;
    var label = run ? 'Stop the timer' : 'Start a timer';
    if (one.button.textContent !== label) {
      one.button.textContent = label;
      one.button.setAttribute('aria-label', label + ': ' + one.name + ', ' + one.length);
    }
    one.output.textContent = !run ? one.over
      : !run.passed ? clock(run.low - Date.now()) + ' to the low end'
      : clock(run.high - Date.now()) + (one.low < one.high ? ' to the high end' : ' left');
  }

  function beat() {
    var news = timers.map(newsOf).filter(Boolean);
    if (!news.length) return;
    tell(news.join(' '));
    document.title = news[0] + ' ' + title;
    beep();
  }

  function newsOf(one) {
    var run = one.run;
    var now = Date.now();
    if (!run) return '';
    if (now >= run.high) {
      keep(one, null, 'the time is over');
      return one.name + ': the time is over, ' + one.length + ago(now - run.high);
    }
    if (now >= run.low && !run.passed) {
      run.passed = true;
      keep(one, run);
      return one.name + ': the low end of ' + one.length + ' is reached' + ago(now - run.low) +
        ' The timer runs on to the high end.';
    }
    show(one);
    return '';
  }

  function ago(late) {
    return late < 60000 ? '.' : ', ' + clock(late) + ' ago.';
  }

  function showTimers() {
    var kept = read().timers;
    timers.forEach(function (one) {
      one.run = kept[one.id] || null;
      show(one);
    });
  }

  /* Sound only after the reader has touched the page: browsers refuse it before, and complain. */

  function wakeSound() {
    var Sound = window.AudioContext || window.webkitAudioContext;
    if (!Sound) return;
    audio = audio || new Sound();
    if (audio.state === 'suspended') audio.resume();
  }

  function beep() {
    if (!audio && !(navigator.userActivation && navigator.userActivation.hasBeenActive)) return;
    wakeSound();
    if (!audio) return;
    [0, 0.35, 0.7].forEach(function (after) {
      var tone = audio.createOscillator();
      tone.frequency.value = 880;
      tone.connect(audio.destination);
      tone.start(audio.currentTime + after);
      tone.stop(audio.currentTime + after + 0.2);
    });
  }

  if (timers.length) {
    setInterval(beat, 1000);
    ['pointerdown', 'keydown'].forEach(function (touch) {
      document.addEventListener(touch, function () {
        document.title = title;
      });
    });
    document.addEventListener('visibilitychange', beat);
  }

  /* The screen. The lock is lost whenever the page is hidden, and asked for again when it is seen. */

  var awake = kitchen.querySelector('.awake');
  var lock = null;
  var wanted = false;

  function want(yes) {
    wanted = yes;
    awake.setAttribute('aria-pressed', String(yes));
  }

  function letGo(news) {
    want(false);
    if (lock) lock.release();
    lock = null;
    tell(news);
  }

  function stayAwake(news) {
    navigator.wakeLock.request('screen').then(function (given) {
      if (!wanted || lock) {
        given.release();
        return;
      }
      lock = given;
      given.addEventListener('release', function () {
        if (lock !== given) return;
        lock = null;
        if (!document.hidden) letGo('The device lets the screen sleep again.');
      });
      if (news) tell(news);
    }, function () {
      if (wanted && !document.hidden) letGo('The device refuses to keep the screen awake.');
    });
  }

  if (navigator.wakeLock) {
    awake.hidden = false;
    awake.addEventListener('click', function () {
      if (wanted) {
        letGo('The screen may sleep again.');
      } else {
        want(true);
        stayAwake('The screen stays awake while this page is seen.');
      }
    });
    document.addEventListener('visibilitychange', function () {
      if (wanted && !lock && !document.hidden) stayAwake('');
    });
  }

  /* Paper. */

  var paper = kitchen.querySelector('.paper');

  function choosePaper() {
    document.documentElement.dataset.paper = paper.value;
  }

  function today() {
    var now = new Date();
    return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map(function (part) {
      return (part < 10 ? '0' : '') + part;
    }).join('-');
  }

  paper.addEventListener('change', choosePaper);
  kitchen.querySelector('.print').addEventListener('click', function () {
    window.print();
  });
  window.addEventListener('beforeprint', function () {
    document.querySelector('.printed').textContent =
      'Scale: ' + scale() + '. Printed ' + today() + ' from ' + address();
  });

  choosePaper();
  showTicks();
  showTimers();
  window.addEventListener('storage', function (event) {
    if (event.key !== key) return;
    showTicks();
    showTimers();
  });
  kitchen.hidden = false;
}());
